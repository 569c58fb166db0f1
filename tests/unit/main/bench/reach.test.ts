import { describe, expect, it } from 'vitest';
import { linkInReach } from '../../../../src/main/bench/reach.ts';

describe('links that a page may name', () => {
  it.each([
    'serial:/dev/ttyUSB0?baud=9600&ask=D%0D',
    'serial:COM3',
    'modbus:/dev/ttyUSB0',
    'keyboard:',
    'tcp://127.0.0.1:4001',
    'tcp://localhost:4001',
    'tcp://[::1]:4001',
    'tcp://[fe80::1]:4001',
    'tcp://[fd12:3456::1]:4001',
    'tcp://192.168.1.20:4001',
    'tcp://10.1.2.3:4001?ask=D%0D',
    'tcp://172.16.0.1:4001',
    'tcp://172.31.255.1:4001',
    'tcp://169.254.7.7:4001',
    'tcp://serial-server:4001',
    'tcp://serial-server.local:4001',
  ])('lead inside: %s', (link) => {
    expect(linkInReach(link)).toMatchObject({ ok: true });
  });

  it.each([
    'tcp://203.0.113.7:80?ask=secret',
    'tcp://elsewhere.example:80?ask=secret',
    'tcp://172.32.0.1:4001',
    'tcp://192.169.1.1:4001',
    'tcp://11.0.0.1:4001',
    'tcp://[2001:db8::1]:4001',
    'tcp://[fec0::1]:4001',
    'tcp://3405803783:80',
    'tcp://0xcb007107:80',
    'tcp://10.elsewhere.example:80',
    'tcp://127.0.0.1.elsewhere.example:80',
    'tcp://local.elsewhere:80',
  ])('lead out and are refused: %s', (link) => {
    expect(linkInReach(link)).toMatchObject({ ok: false, problem: { kind: 'too-far', field: 'host' } });
  });

  it('and what is no link at all is said to be none', () => {
    expect(linkInReach('pigeon:post')).toMatchObject({ ok: false, problem: { field: 'link' } });
  });
});
