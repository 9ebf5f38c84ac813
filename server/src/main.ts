// TO BE REPLACED
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { placeholderSession } from './placeholder-session';

placeholderSession(createConnection(ProposedFeatures.all));
