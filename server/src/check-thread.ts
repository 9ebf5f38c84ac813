/** The door of a thread that takes its share of a long check. */
import { bundle } from './node-load';

bundle('cli-check');
