/**
 * Node's compile cache (Node 22.1 and later), in our own folder under the user's cache directory, which may be deleted
 * at any time. Without it a start takes some 20 to 100 ms longer.
 */
import { existsSync } from 'node:fs';
import module from 'node:module';
import { dirname, join } from 'node:path';

/** Call before loading the code to be cached. Failures are ignored. */
export function enableCompileCache(env: NodeJS.ProcessEnv, platform: NodeJS.Platform): void {
  const folder = cacheFolder(env, platform);
  // Missing from the types of the oldest supported Node.
  const nodes = module as { enableCompileCache?: (folder: string) => unknown };
  if (folder !== undefined && !env.NODE_COMPILE_CACHE) nodes.enableCompileCache?.(join(folder, 'pinchrod'));
}

/** The user's cache directory (XDG Base Directory Specification on Linux); undefined if there is no home directory. */
function cacheFolder(env: NodeJS.ProcessEnv, platform: NodeJS.Platform): string | undefined {
  const home = (...path: string[]) => (env.HOME ? join(env.HOME, ...path) : undefined);
  const folder =
    platform === 'win32'
      ? env.LOCALAPPDATA
      : platform === 'darwin'
        ? home('Library', 'Caches')
        : env.XDG_CACHE_HOME?.startsWith('/')
          ? env.XDG_CACHE_HOME
          : home('.cache');
  return folder && existsSync(dirname(folder)) ? folder : undefined;
}
