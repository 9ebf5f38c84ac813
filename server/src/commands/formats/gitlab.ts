import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import type { Severity } from '../../model/read/settings';
import { printable } from '../../text/printable';
import type { DocumentFormat } from './format';
import { type Located, notIgnored, worstFirst } from './worst-first';

/** A code quality report of GitLab: a list. Source: "Code Quality report format", the host's documentation. */
export const gitlab: DocumentFormat = {
  kind: 'document',
  document: ({ found, unread }) => {
    const seen = new Map<string, number>();
    const issues = notIgnored(worstFirst(found)).map((each) => issueOf(each, seen));
    return [JSON.stringify([...unread.map(notRead), ...issues], null, 2)];
  },
};

const severities: Record<Severity, string> = { error: 'major', warning: 'minor', information: 'info' };

function issueOf({ path, finding }: Located, seen: Map<string, number>) {
  const { rule, severity, message, line } = finding;
  // by what is said and not by its line: a reading that moves down is no other finding
  const said = JSON.stringify([path, rule, message]);
  const times = seen.get(said) ?? 0;
  seen.set(said, times + 1);
  return {
    description: printable(message),
    check_name: rule,
    fingerprint: hashOf(`${said} ${times}`),
    severity: severities[severity],
    location: { path: printable(path), lines: { begin: line } },
  };
}

const notRead = (line: string) => ({
  description: printable(line),
  check_name: 'not-read',
  fingerprint: hashOf(line),
  severity: 'blocker',
  location: { path: '.', lines: { begin: 1 } },
});

const hashOf = (text: string): string => bytesToHex(sha256(utf8ToBytes(text)));
