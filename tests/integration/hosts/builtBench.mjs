// Stands in for Electron's utility process: gives the built bench a parent port made of Node's own channel.
process.parentPort = {
  postMessage: (text) => process.send?.(text),
  on: (_event, listener) => process.on('message', (data) => listener({ data })),
};
await import('../../../out/main/benchProcess.js');
