// TO BE REPLACED
export const run = async (args: string[]): Promise<void> => {
  if (args[0] === 'lsp') await import('./main');
  else console.log('framewright 0.1.0');
};
