import { once } from 'node:events';
import { connect, createServer, type AddressInfo, type Socket } from 'node:net';

/** A network in front of a local server. */
export interface LossyNetwork {
  port: number;
  /** From now on swallows what either end sends on the connections that are open, and reports no error. */
  loseOpen: () => void;
  close: () => void;
}

export async function lossyNetwork(serverPort: number): Promise<LossyNetwork> {
  const sockets = new Set<Socket>();
  const network = createServer((near) => {
    const far = connect(serverPort, '127.0.0.1');
    for (const [from, to] of [
      [near, far],
      [far, near],
    ] as const) {
      sockets.add(from);
      from
        .on('error', () => undefined)
        .once('close', () => {
          sockets.delete(from);
          to.destroy();
        });
      from.pipe(to);
    }
  }).listen(0, '127.0.0.1');
  await once(network, 'listening');
  return {
    port: (network.address() as AddressInfo).port,
    loseOpen: () => sockets.forEach((socket) => socket.unpipe().resume()),
    close: () => {
      sockets.forEach((socket) => socket.destroy());
      network.close();
    },
  };
}
