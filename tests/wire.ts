// The client imports nothing of the server: what passes between the two is written down on both sides. `npm run check:types` fails here
// where the server's answer is no longer what the client takes.
import type { Answer } from '../client/src/drawing/messages';
import type * as client from '../client/src/jobs/job-entries';
import type { Answered } from '../server/src/protocol/features/drawing';
import type { Entry } from '../server/src/protocol/job-entry';
import type { Repository } from '../server/src/protocol/repository';

type Fits<Given extends Taken, Taken> = [Given, Taken];

export type Wire = [
  Fits<Answered, Answer>,
  Fits<Entry, client.Entry>,
  Fits<Awaited<ReturnType<Repository['jobs']>>, client.Listing>,
];
