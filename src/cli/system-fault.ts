const words: Readonly<Record<string, string>> = {
  EACCES: 'may not be read or written',
  EPERM: 'may not be read or written',
  EROFS: 'lies on a disk that can not be written',
  ENOSPC: 'can not be written: the disk is full',
  EFBIG: 'can not be written: it is larger than this machine allows',
  EDQUOT: 'can not be written: your share of the disk is full',
  ELOOP: 'is a link that leads back to itself',
  ENAMETOOLONG: 'is longer than the name of a file can be',
  EMFILE: 'can not be opened: too many files are open',
};

/** What the machine refuses, which is no fault of the program, as one sentence; nothing for any other error. */
export function systemFault(error: unknown): string | undefined {
  if (!(error instanceof Error)) return undefined;
  const { code = '', path } = error as NodeJS.ErrnoException;
  return Object.hasOwn(words, code) ? `${path ?? 'a file'} ${words[code]} (${code})` : undefined;
}
