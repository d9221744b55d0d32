import childProcess from 'node:child_process';
import { closeSync, openSync } from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import process from 'node:process';

/**
 * Loaded into the service before it starts: its first FAILING_FORKS forks of a command fail as FAILING_FORK
 * names. EMFILE is the system's own, with every descriptor in use (start it under a low limit of these); the others are
 * raised as Node raises them.
 */
const { fork } = childProcess;
const { FAILING_FORK: code, FAILING_FORKS = '1' } = process.env;
let left = Number(FAILING_FORKS);

const fault = () => Object.assign(new Error(`spawn ${code}`), { code, syscall: 'spawn' });
const failing = {
  EMFILE: (...given) => {
    const open = [];
    try {
      for (;;) open.push(openSync('/dev/null'));
    } catch {
      return fork(...given);
    } finally {
      open.forEach((descriptor) => closeSync(descriptor));
    }
  },
  EAGAIN: () => {
    const child = new childProcess.ChildProcess();
    process.nextTick(() => child.emit('error', fault()));
    return child;
  },
  ENOMEM: () => {
    throw fault();
  },
};

childProcess.fork = (...given) => (left-- > 0 ? failing[code](...given) : fork(...given));
syncBuiltinESMExports();
