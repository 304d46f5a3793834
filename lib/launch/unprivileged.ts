import { spawnSync } from 'node:child_process'
import fs from 'node:fs'
import path from 'node:path'

export interface Invocation {
  command: string
  args: string[]
  uid?: number
  gid?: number
}

export interface Launcher {
  /** The owner that files of the data directory need, where it is not the current user. */
  owner?: { uid: number; gid: number }
  /** `tied`: the kernel interrupts the program when this process dies, however it dies (Linux only). */
  invoke(program: string, args: string[], tied?: boolean): Invocation
}

const NOBODY = '65534'
const AS_NOBODY = ['unshare', '-U', `--map-user=${NOBODY}`, `--map-group=${NOBODY}`]
const WITH_PARENT = ['setpriv', '--pdeathsig', 'INT']

/**
 * How to run a PostgreSQL program, which refuses root: as it is for an ordinary user; for root in a user namespace,
 * else under the account `postgres` or `nobody`. Throws where root has neither.
 */
export function unprivilegedLauncher(isRoot = process.getuid?.() === 0, canUnshare = succeeds([...AS_NOBODY, 'true'])): Launcher {
  const tie = process.platform === 'linux' && succeeds([...WITH_PARENT, 'true']) ? [...WITH_PARENT, '--'] : []
  const owner = isRoot && !canUnshare ? accountFor(['postgres', 'nobody']) : undefined
  const prefix = isRoot && canUnshare ? [...AS_NOBODY, '--'] : []
  return {
    owner,
    invoke(program, args, tied = false) {
      const [command, ...rest] = [...prefix, ...(tied ? tie : []), program, ...args]
      return { command: command ?? program, args: rest, ...owner }
    },
  }
}

/** Makes a directory that the launched programs own and nobody else reads. */
export function privateDirectory(dir: string, owner: Launcher['owner']): void {
  fs.mkdirSync(path.dirname(dir), { recursive: true })
  fs.mkdirSync(dir, { recursive: true, mode: 0o700 })
  if (owner) fs.chownSync(dir, owner.uid, owner.gid)
}

function succeeds([command, ...args]: string[]): boolean {
  return command !== undefined && spawnSync(command, args, { stdio: 'ignore' }).status === 0
}

function accountFor(names: string[]): { uid: number; gid: number } {
  for (const name of names) {
    const [uid, gid] = [idOf('-u', name), idOf('-g', name)]
    if (uid !== undefined && gid !== undefined) return { uid, gid }
  }
  throw new Error('PostgreSQL refuses to run as root, and this machine has neither user namespaces nor an account postgres or nobody. '
    + 'Run the command as an ordinary user.')
}

function idOf(flag: string, name: string): number | undefined {
  const { status, stdout } = spawnSync('id', [flag, name], { encoding: 'utf8' })
  return status === 0 ? Number(stdout) : undefined
}
