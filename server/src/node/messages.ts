import type { Writable } from 'node:stream';
import { AbstractMessageWriter, type Message, type MessageWriter } from 'vscode-languageserver/node';
import { PublishedJson } from '../protocol/published-json';

/** Room that is kept for the next message, bytes. */
const mostKept = 1 << 20;

/**
 * Writes messages to the stream of a process, header and body at once, so that who reads it is woken once. Hundreds of diagnostics are
 * put together in the same room again and again, for fresh memory costs more than what is written into it: the stream calls back when
 * its bytes were taken, not handed on.
 */
export class StreamWriter extends AbstractMessageWriter implements MessageWriter {
  private readonly published = new PublishedJson();
  /** Null while the stream reads from it. */
  private room: Buffer | null = Buffer.alloc(0);
  private errors = 0;

  constructor(private readonly stream: Writable) {
    super();
    stream.on('error', (error) => this.fireError(error));
    stream.on('close', () => this.fireClose());
  }

  write(message: Message): Promise<void> {
    return new Promise((resolve, reject) => {
      const failed = (error: unknown): void => {
        this.fireError(error, message, ++this.errors);
        reject(error);
      };
      const answer = (error?: Error | null): void => (error ? failed(error) : resolve());
      try {
        const pieces = this.published.piecesOf(message);
        if (pieces === null) this.writeText(JSON.stringify(message), answer);
        else this.writePieces(pieces, answer);
      } catch (error) {
        failed(error);
      }
    });
  }

  end(): void {
    this.stream.end();
  }

  private writeText(body: string, answer: (error?: Error | null) => void): void {
    this.stream.write(`${headerOf(Buffer.byteLength(body))}${body}`, 'utf8', answer);
  }

  /** @param pieces in ASCII */
  private writePieces(pieces: string[], answer: (error?: Error | null) => void): void {
    let length = 0;
    for (const piece of pieces) length += piece.length;
    const header = headerOf(length);
    const whole = header.length + length;
    const isRoom = this.room !== null && this.room.length >= whole;
    // a few digits more must fit next time
    const room = isRoom ? this.room! : Buffer.allocUnsafe(whole + (whole >> 3));
    this.room = null;
    let at = room.write(header, 'latin1');
    for (const piece of pieces) at += room.write(piece, at, 'latin1');
    this.stream.write(room.subarray(0, at), (error) => {
      if (room.length <= mostKept) this.room = room;
      answer(error);
    });
  }
}

const headerOf = (bytes: number): string => `Content-Length: ${bytes}\r\n\r\n`;
