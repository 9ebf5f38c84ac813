/** Those who wait for something to be told. */
export class Waiting {
  private readonly looks = new Set<() => void>();

  /** Something was told: each looks whether that was it. */
  look(): void {
    for (const look of this.looks) look();
  }

  /** When it fits; an error with `otherwise` when it never does. */
  until(fits: () => boolean, limitMs: number, otherwise: () => string): Promise<void> {
    return new Promise((resolve, reject) => {
      const end = (act: () => void): void => {
        clearTimeout(timer);
        this.looks.delete(look);
        act();
      };
      const timer = setTimeout(() => end(() => reject(new Error(otherwise()))), limitMs);
      const look = (): void => {
        if (fits()) end(resolve);
      };
      this.looks.add(look);
      look();
    });
  }
}
