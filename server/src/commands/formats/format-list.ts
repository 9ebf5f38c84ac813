/** The formats that `check --format` knows, by name. A new one is a file beside this one and its line here. */
export { concise } from './concise';
export { github } from './github';
export { gitlab } from './gitlab';
export { json } from './json';
export { junit } from './junit';
export { rdjson } from './rdjson';
export { sarif } from './sarif';
export { text } from './text';
