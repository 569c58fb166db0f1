import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { SerialPort } from 'serialport';
import { WebSocketServer } from 'ws';

/** The least that could bring a gauge's line to a page: no check, no journal, no records. */
export interface BareLoop {
  readonly link: string;
  close(): Promise<void>;
}

/** serialport, a split at line ends, a WebSocket message for each line, and a page that writes its text. */
export async function openBareLoop(paths: ReadonlyMap<string, string>): Promise<BareLoop> {
  const server = createServer((_request, response) => {
    response.writeHead(200, { 'content-type': 'text/html' });
    response.end(pageFor([...paths.keys()]));
  });
  const sockets = new WebSocketServer({ server, perMessageDeflate: false });
  await new Promise<void>((resolve) => void server.listen(0, '127.0.0.1', resolve));
  const ports = [...paths].map(([gauge, path]) => {
    const port = new SerialPort({ path, baudRate: 115_200 });
    let rest = '';
    port.on('error', () => undefined);
    port.on('data', (bytes: Buffer) => {
      const lines = (rest + bytes.toString('latin1')).split('\r\n');
      rest = lines.pop() ?? '';
      for (const line of lines) for (const socket of sockets.clients) socket.send(JSON.stringify([gauge, line]));
    });
    return port;
  });
  return {
    link: `http://127.0.0.1:${(server.address() as AddressInfo).port}/`,
    close: async () => {
      await Promise.all(ports.map((port) => new Promise<void>((resolve) => port.close(() => resolve()))));
      for (const socket of sockets.clients) socket.terminate();
      await new Promise<void>((resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      });
    },
  };
}

const pageFor = (gauges: readonly string[]): string => `<!doctype html><title>bare</title>
${gauges.map((gauge) => `<p class="strip-gauge"><span data-gauge="${gauge}"><span class="live__digits">-</span></span></p>`).join('\n')}
<script>
const digits = Object.fromEntries([...document.querySelectorAll('[data-gauge]')].map((one) => [one.dataset.gauge, one.firstChild]));
new WebSocket('ws://' + location.host).addEventListener('message', ({ data }) => {
  const [gauge, line] = JSON.parse(data);
  digits[gauge].textContent = line.split(' ')[0];
});
</script>`;
