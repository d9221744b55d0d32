import { lookup as resolve, type LookupAddress } from 'node:dns';
import type { LookupFunction } from 'node:net';
import ipaddr from 'ipaddr.js';

/**
 * Restricts webhooks to public addresses unless configured otherwise, so that they cannot reach services on the
 * internal network. A name is checked as it resolves on connecting, since it may have resolved differently before.
 */

/** The webhook's address is not allowed. */
export class AddressRefused extends Error {}

/** The IPv6 range assigned as global unicast (RFC 4291 section 2.5.4, IANA's registry of the address space). */
const GLOBAL_UNICAST = ipaddr.IPv6.parseCIDR('2000::/3');

/**
 * Whether an IP address is on the public internet: not loopback, private, link-local, multicast or otherwise reserved.
 */
export function isPublicAddress(address: string): boolean {
  if (!ipaddr.isValid(address)) return false;
  // Checks an IPv4-mapped IPv6 address as IPv4.
  const parsed = ipaddr.process(address);
  if (parsed.range() !== 'unicast') return false;
  return parsed instanceof ipaddr.IPv6 ? parsed.match(GLOBAL_UNICAST) : true;
}

/** Resolves names as usual, but fails if any of the addresses is not public. */
export const lookupPublic: LookupFunction = (hostname, options, callback) => {
  resolve(hostname, { ...options, all: true }, (error, addresses: LookupAddress[]) => {
    if (error) {
      callback(error, '');
      return;
    }
    const [first] = addresses;
    if (!first || !addresses.every(({ address }) => isPublicAddress(address))) {
      callback(new AddressRefused(`${hostname} does not resolve to a public address`), '');
      return;
    }
    if (options.all) {
      callback(null, addresses);
      return;
    }
    callback(null, first.address, first.family);
  });
};

/**
 * Why an endpoint's URL cannot be used, judged without a lookup; null if it can.
 *
 * @param allowPrivate whether http and non-public addresses are allowed
 */
export function urlIssue(text: string, allowPrivate: boolean): string | null {
  const url = URL.canParse(text) ? new URL(text) : null;
  if (!url || (url.protocol !== 'https:' && url.protocol !== 'http:')) return 'must be an https address';
  if (url.username !== '' || url.password !== '') return 'must not contain a user name or password';
  if (url.hash !== '') return 'must not contain a fragment (#…)';
  if (allowPrivate) return null;
  if (url.protocol !== 'https:') return 'must be an https address';
  return isHiddenHost(url.hostname)
    ? 'must be a public address, not a loopback, private or reserved one'
    : null;
}

/** Whether a host is known not to be public without a lookup. URL parsing has already normalized numeric addresses. */
function isHiddenHost(hostname: string): boolean {
  const host = hostname.replace(/^\[(.*)\]$/, '$1').replace(/\.$/, '');
  if (ipaddr.isValid(host)) return !isPublicAddress(host);
  return host === 'localhost' || host.endsWith('.localhost');
}
