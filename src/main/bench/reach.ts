import { type Link, parseLink } from '../../shared/gauges/link.ts';
import { isIP } from 'node:net';
import { fail, type Problem, type Result } from '../../shared/basics/result.ts';

/**
 * A link that a page names: serial ports, and over TCP only this machine and the network it stands in. What a link asks a
 * gauge is sent to it, so a page that somebody has taken over could otherwise carry readings and records out to any address.
 * On the command line a person types the link, and it may lead anywhere.
 */
export function linkInReach(text: string): Result<Link> {
  const link = parseLink(text);
  if (!link.ok) return link;
  if (link.value.kind !== 'tcp' || isNear(link.value.host)) return link;
  return fail(tooFar(link.value.host));
}

/** Private, link-local and loopback addresses (RFC 1918, RFC 3927, RFC 4193, RFC 4291; from memory), and names that no name server of the world answers. */
export function isNear(host: string): boolean {
  const bare = host.replace(/^\[|\]$/gu, '').toLowerCase();
  if (isIP(bare) === 4) return /^(?:127\.|10\.|192\.168\.|169\.254\.|172\.(?:1[6-9]|2\d|3[01])\.)/u.test(bare);
  if (isIP(bare) === 6) return bare === '::1' || /^(?:fe[89ab]|f[cd])[0-9a-f]{0,2}:/u.test(bare);
  // Digits alone are an address in another writing: 2130706433 is 127.0.0.1, and others are not.
  if (/^[\d.]+$/u.test(bare) || bare.startsWith('0x')) return false;
  return !bare.includes('.') || /\.(?:local|lan|internal|home\.arpa)$/u.test(bare);
}

const tooFar = (host: string): Problem => ({
  kind: 'too-far',
  field: 'host',
  sentence: `${host} lies outside the network of this machine, and a gauge is only listened to inside it.`,
  remedy: 'Give the address that the serial server has in your own network, like 192.168.1.20.',
});
