import { inspected } from '../../../server/src/inspection/job/inspect';
import { chassisOf, jobOf } from '../../../server/src/model/testing/read';

export { chassisOf, inspected, jobOf };
