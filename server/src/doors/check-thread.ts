/** The door of a thread that takes its share of a long check. */
import { bundle } from './load';

bundle('cli-judge', true);
