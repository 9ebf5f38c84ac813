/** Characters that decide how a line is read, as `charCodeAt` gives them. */
export const TAB = 9;
export const LF = 10;
export const CR = 13;
export const SPACE = 32;
export const HASH = 35;
export const COMMA = 44;
export const DASH = 45;
export const POINT = 46;
export const COLON = 58;
export const OPEN_LIST = 91;
export const CLOSE_LIST = 93;
export const OPEN_MAP = 123;
export const CLOSE_MAP = 125;
