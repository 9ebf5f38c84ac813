/** The commands that are asked for now and then, as the command line loads them. */
export { advise } from '../commands/advise';
export { chassisPage } from '../commands/chassis';
export { completion, isShell } from '../commands/completion';
export { allRules, familyLines, rulePage, unknownRule } from '../commands/explain';
export { initSaid } from '../commands/init';
export { inspect } from '../commands/inspect';
export { manPage } from '../commands/man';
export { plan } from '../commands/plan';
export { report } from '../commands/report';
export { scatter } from '../commands/scatter';
export { isDate, sign } from '../commands/sign';
export { nearest } from '../model/names';
export { nodeFiles } from '../node/files';
export { initialised } from '../node/init';
export { foundChromium, printedAsPdf } from '../node/print';
export { textWritten } from '../node/write';
export { isReport } from '../report/record/record';
