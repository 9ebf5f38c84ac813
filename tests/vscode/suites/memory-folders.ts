// Folders that the editor alone has, as of an extension that brings files from elsewhere. They are read only.
import * as vscode from 'vscode';

class MemoryFolders implements vscode.FileSystemProvider {
  private readonly files = new Map<string, Uint8Array>();
  private readonly changes = new vscode.EventEmitter<vscode.FileChangeEvent[]>();
  readonly onDidChangeFile = this.changes.event;

  put(uri: vscode.Uri, bytes: Uint8Array): void {
    this.files.set(uri.path, bytes);
  }

  readFile(uri: vscode.Uri): Uint8Array {
    const bytes = this.files.get(uri.path);
    if (!bytes) throw vscode.FileSystemError.FileNotFound(uri);
    return bytes;
  }

  stat(uri: vscode.Uri): vscode.FileStat {
    const bytes = this.files.get(uri.path);
    if (bytes) return { type: vscode.FileType.File, ctime: 0, mtime: 0, size: bytes.length };
    if (this.readDirectory(uri).length === 0) throw vscode.FileSystemError.FileNotFound(uri);
    return { type: vscode.FileType.Directory, ctime: 0, mtime: 0, size: 0 };
  }

  readDirectory(uri: vscode.Uri): [string, vscode.FileType][] {
    const entries = new Map<string, vscode.FileType>();
    const above = `${uri.path.replace(/\/$/, '')}/`;
    for (const path of this.files.keys()) {
      if (!path.startsWith(above)) continue;
      const [name, ...rest] = path.slice(above.length).split('/');
      entries.set(name, rest.length > 0 ? vscode.FileType.Directory : vscode.FileType.File);
    }
    return [...entries];
  }

  watch(): vscode.Disposable {
    return new vscode.Disposable(() => {});
  }

  createDirectory(uri: vscode.Uri): never {
    throw vscode.FileSystemError.NoPermissions(uri);
  }

  writeFile(uri: vscode.Uri): never {
    throw vscode.FileSystemError.NoPermissions(uri);
  }

  delete(uri: vscode.Uri): never {
    throw vscode.FileSystemError.NoPermissions(uri);
  }

  rename(uri: vscode.Uri): never {
    throw vscode.FileSystemError.NoPermissions(uri);
  }
}

/** All folders of a scheme, empty at first. */
export const foldersInMemory = (scheme: string): MemoryFolders => {
  const folders = new MemoryFolders();
  vscode.workspace.registerFileSystemProvider(scheme, folders, { isReadonly: true });
  return folders;
};
