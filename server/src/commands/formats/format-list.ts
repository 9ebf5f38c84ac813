/** The formats that `check --format` knows, by name. A new one is a file beside this one and its line here. */
export { concise } from './concise';
export { text } from './text';
