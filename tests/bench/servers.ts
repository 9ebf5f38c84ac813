import { readFileSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { commandLine, peerModule, schemaFolder } from './folders';

/** A language server, and how it is told of the format. */
export interface ServerKind {
  readonly name: string;
  readonly isOurs: boolean;
  readonly arguments: readonly string[];
  readonly text: 'yaml' | 'json';
  readonly languageId: string;
  readonly initializationOptions: object;
  /** Answers to workspace/configuration, by section. */
  readonly settings: Readonly<Record<string, unknown>>;
}

const schemaFile = path.join(schemaFolder, 'readings.schema.json');

export const ours: ServerKind = {
  name: 'framewright',
  isOurs: true,
  arguments: [commandLine, 'lsp', '--stdio'],
  text: 'yaml',
  languageId: 'framewright-readings',
  initializationOptions: {},
  // the others look at open files only
  settings: { framewright: { checkWholeWorkspace: false } },
};

const yamlServer = (): ServerKind => ({
  name: 'yaml-language-server',
  isOurs: false,
  arguments: [path.join(peerModule('yaml-language-server'), 'bin/yaml-language-server'), '--stdio'],
  text: 'yaml',
  languageId: 'yaml',
  initializationOptions: {},
  settings: {
    yaml: {
      validate: true,
      schemas: { [pathToFileURL(schemaFile).href]: '*.readings.yaml' },
      schemaStore: { enable: false },
    },
  },
});

const jsonServer = (): ServerKind => ({
  name: 'VS Code JSON server',
  isOurs: false,
  arguments: [
    path.join(peerModule('vscode-langservers-extracted'), 'bin/vscode-json-language-server'),
    '--stdio',
  ],
  text: 'json',
  languageId: 'json',
  initializationOptions: { provideFormatter: false },
  settings: {
    json: {
      validate: { enable: true },
      schemas: [
        {
          fileMatch: ['*.readings.json'],
          url: 'framewright:readings/1',
          schema: JSON.parse(readFileSync(schemaFile, 'utf8')),
        },
      ],
    },
  },
});

export const peerServers = (): readonly ServerKind[] => [yamlServer(), jsonServer()];
