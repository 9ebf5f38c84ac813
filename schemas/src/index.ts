export * from './advise';
export * from './chassis';
export * from './common';
export * from './inspect';
export * from './readings';
export * from './settings';
export * from './tables';
export * from './timeline';
