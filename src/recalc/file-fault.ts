import { dirname } from "node:path";

/** Why a command cannot do what it was asked; the message is a sentence. */
export class CommandError extends Error {}

/** What a file was wanted for. */
export type FileUse = "read" | "written";

const FAULTS: Readonly<Record<string, (file: string, use: FileUse) => string>> = {
  ENOENT: (file, use) =>
    use === "read"
      ? `there is no file ${file}`
      : `${file} cannot be written: there is no folder ${dirname(file)}`,
  ENOTDIR: (file, use) => `${file} cannot be ${use}: a part of its path is a file, not a folder`,
  EISDIR: (file, use) => `${file} cannot be ${use}: it is a folder, not a file`,
  EACCES: (file, use) => `${file} cannot be ${use}: you may not do that there`,
  EPERM: (file, use) => `${file} cannot be ${use}: you may not do that there`,
  EROFS: (file, use) => `${file} cannot be ${use}: the disk or folder can only be read`,
  ENOSPC: (file, use) => `${file} cannot be ${use}: the disk is full`,
  EDQUOT: (file, use) => `${file} cannot be ${use}: your share of the disk is full`,
  EFBIG: (file, use) => `${file} cannot be ${use}: files there cannot be that large`,
  ENAMETOOLONG: (file, use) => `${file} cannot be ${use}: its name is too long`,
  EBUSY: (file, use) => `${file} cannot be ${use}: another program holds it open, close it there`,
  ELOOP: (file, use) => `${file} cannot be ${use}: its links lead in a circle`,
  EIO: (file, use) => `${file} cannot be ${use}: the disk reports an error`,
  ERR_FS_FILE_TOO_LARGE: (file, use) => `${file} cannot be ${use}: it is larger than 2 GB`,
};

/** The sentence for what an operating system says of a file; other errors as they are. */
export function fileFault(error: unknown, file: string, use: FileUse): unknown {
  const code = (error as NodeJS.ErrnoException | undefined)?.code ?? "";
  const sentence = FAULTS[code];
  return sentence === undefined ? error : new CommandError(sentence(file, use));
}
