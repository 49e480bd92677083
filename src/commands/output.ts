/**
 * Standard output and error of a command, written at once. Node's own streams for them take about as long to load as a
 * small command takes to run, so they are used only where the reader is slower than a pipe's buffer.
 */
import { writeSync } from 'node:fs';
import { EXIT } from './io.js';

/** 1 is standard output, 2 standard error. */
type Channel = 1 | 2;

const streaming = new Set<Channel>();

/**
 * A reader of standard output that closed early (`pinchrod board | head`) is not a failure, and ends the command: `end` gets
 * the exit code. Without standard error there is nobody to tell; the exit code still says how it went.
 */
export function say(channel: Channel, text: string, end: (code: number) => void): void {
  const gone = ({ code }: NodeJS.ErrnoException) => {
    if (channel === 1) end(code === 'EPIPE' ? EXIT.done : EXIT.resource);
  };
  let rest: Uint8Array = Buffer.from(text);
  try {
    while (rest.length > 0 && !streaming.has(channel)) rest = rest.subarray(writeSync(channel, rest));
  } catch (error) {
    // A pipe that another program made non-blocking, and is full: the stream waits for its reader.
    if ((error as NodeJS.ErrnoException).code !== 'EAGAIN') {
      gone(error as NodeJS.ErrnoException);
      return;
    }
    streaming.add(channel);
    streamOf(channel).on('error', gone);
  }
  if (rest.length > 0) streamOf(channel).write(rest);
}

/** Whether something that was said may still be on its way to a slow reader. */
export const stillSaying = (): boolean => streaming.size > 0;

const streamOf = (channel: Channel) => (channel === 1 ? process.stdout : process.stderr);
