/** BCP 47 without region, from the locale of the environment as POSIX ranks it; `en` where it says nothing. */
export function localeLanguage(env: Readonly<Record<string, string | undefined>>): string {
  const locale = env.LC_ALL || env.LC_MESSAGES || env.LANG || '';
  return /^([a-z]{2,3})(?:[_.@-]|$)/i.exec(locale)?.[1]?.toLowerCase() ?? 'en';
}
