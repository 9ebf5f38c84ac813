// What vitest's JSON report says of the tests that went wrong, in lines for a person.
import path from 'node:path';

/** The tests that failed, or files that could not be run, each with the first lines of why. */
export const failuresIn = ({ testResults }, root) =>
  testResults.flatMap(({ name, status, message, assertionResults }) => {
    const where = path.relative(root, name);
    const own = assertionResults
      .filter((each) => each.status !== 'passed')
      .map((each) => `${where}: ${each.fullName}\n${firstLines(each.failureMessages?.[0] ?? each.status)}`);
    return own.length > 0 || status === 'passed' ? own : [`${where}\n${firstLines(message)}`];
  });

/** The tests that passed at a second try only: the report keeps what the first try said. */
export const retriedIn = ({ testResults }, root) =>
  testResults.flatMap(({ name, assertionResults }) =>
    assertionResults
      .filter(({ status, failureMessages }) => status === 'passed' && failureMessages?.length > 0)
      .map(
        ({ fullName, failureMessages }) =>
          `${path.relative(root, name)}: ${fullName}, at try ${failureMessages.length + 1} (${failureMessages[0].split('\n', 1)[0]})`,
      ),
  );

const firstLines = (words) => words.split('\n').slice(0, 12).join('\n');
