/** Control characters, line breaks of any kind, marks that turn the direction of text, a byte-order mark. */
const steering = /[\u0000-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]/g;

/** Text of a file on one line of a terminal or a page: what would steer either is a blank, so that a column stays a column. */
export const printable = (text: string): string => text.replace(steering, ' ');
