/** A thread of a check whose program fails on some texts, in ways that no judge can catch. Bundled by the test. */
import { isCheckThread, work } from '../../server/src/node/workers';
import { ownJudges } from '../../server/src/workspace/judges';

const ways: Record<string, () => void> = {
  'ends the thread': () => process.exit(9),
  'rejects a promise': () => {
    void Promise.reject(new Error('nobody waits for this'));
  },
  'throws later': () => {
    setImmediate(() => {
      throw new Error('nobody catches this');
    });
  },
};

if (isCheckThread())
  work({
    ...ownJudges,
    parse: (text, previous) => {
      for (const [way, act] of Object.entries(ways)) if (text.includes(`# ${way}`)) act();
      return ownJudges.parse(text, previous);
    },
  });
