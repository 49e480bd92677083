/**
 * A file system of its own in an image file (ext4 over a loop device), whose power can be cut: what has reached the image
 * when it is copied is what a machine would find after the power came back. Needs root; elsewhere it says why not.
 */
import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync, mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { withoutRegister } from '../registerless.js';
import { freshWorkshop } from '../tui/terminal.js';

export interface Volume {
  /** Where it is mounted. */
  readonly folder: string;
  /** Cuts the power of a copy: mounts what had reached the image. The volume itself goes on. */
  cut(): Cut;
  remove(): void;
}

interface Cut {
  readonly folder: string;
  release(): void;
}

const SIZE = 32_000_000;

/** A fresh volume, or the reason why there can be none here. */
export function makeVolume(): Volume | string {
  if (process.platform !== 'linux') return 'power cuts are emulated on Linux alone';
  if (process.getuid?.() !== 0) return 'only root may mount a file system';
  const base = mkdtempSync(join(tmpdir(), 'pinchrod-volume-'));
  const image = join(base, 'image');
  const mounted: string[] = [];
  const mount = (from: string, name: string): string | undefined => {
    const at = join(base, name);
    mkdirSync(at, { recursive: true });
    const failed = ran('mount', '-o', 'loop', from, at);
    if (failed !== undefined) return failed;
    mounted.push(at);
    return undefined;
  };
  const unmount = (at: string): void => {
    ran('umount', at);
    mounted.splice(mounted.indexOf(at), 1);
  };
  const remove = (): void => {
    for (const at of [...mounted]) unmount(at);
    rmSync(base, { recursive: true, force: true });
  };
  writeFileSync(image, '');
  truncateSync(image, SIZE);
  const why = ran('mkfs.ext4', '-q', '-F', '-m', '0', image) ?? mount(image, 'disk');
  if (why !== undefined) {
    remove();
    return `no file system can be made in a file and mounted here: ${why}`;
  }
  let cuts = 0;
  return {
    folder: join(base, 'disk'),
    cut() {
      const name = `cut-${cuts++}`;
      const copy = join(base, `${name}.image`);
      const failed = ran('cp', '--sparse=always', image, copy) ?? mount(copy, name);
      if (failed !== undefined) throw new Error(failed);
      return {
        folder: join(base, name),
        release() {
          unmount(join(base, name));
          rmSync(copy);
        },
      };
    },
    remove,
  };
}

/** A fresh workshop in a folder that is there already. */
export function fillWorkshop(folder: string): void {
  rmSync(join(folder, 'logs'), { recursive: true, force: true });
  withoutRegister(folder);
  const fresh = freshWorkshop();
  cpSync(fresh.folder, folder, { recursive: true });
  fresh.remove();
}

/** Runs a command; what it complained of, or undefined where it did its work. */
function ran(command: string, ...args: string[]): string | undefined {
  const { status, error, stderr } = spawnSync(command, args, { encoding: 'utf8' });
  if (error) return error.message;
  return status === 0 ? undefined : `${command}: ${stderr.trim()}`;
}
