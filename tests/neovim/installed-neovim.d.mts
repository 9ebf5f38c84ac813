export function neovimPath(): string | undefined;
export function installedNeovim(): string;
