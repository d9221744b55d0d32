import { lookup as resolve, type LookupAddress } from 'node:dns';
import type { LookupFunction } from 'node:net';
import ipaddr from 'ipaddr.js';

/**
 * Where webhooks may go: unless the service is set to allow others, to public addresses alone, so that nobody can make
 * it ask what only it can reach. A name is judged by what it resolves to at the moment of connecting, since what it
 * resolved to before says nothing.
 */

/** An address that webhooks may not go to. */
export class AddressRefused extends Error {}

/** The part of IPv6 that is given out as global unicast (RFC 4291 section 2.5.4, IANA's registry of the address space). */
const GLOBAL_UNICAST = ipaddr.IPv6.parseCIDR('2000::/3');

/** Whether an IP address is on the public internet: not loopback, private, link-local, multicast or set aside otherwise. */
export function isPublicAddress(address: string): boolean {
  if (!ipaddr.isValid(address)) return false;
  // An IPv4 address mapped into IPv6 counts as what it stands for.
  const parsed = ipaddr.process(address);
  if (parsed.range() !== 'unicast') return false;
  return parsed instanceof ipaddr.IPv6 ? parsed.match(GLOBAL_UNICAST) : true;
}

/** Resolves names as usual, and fails where any address that a name resolves to is not public. */
export const lookupPublic: LookupFunction = (hostname, options, callback) => {
  resolve(hostname, { ...options, all: true }, (error, addresses: LookupAddress[]) => {
    if (error) {
      callback(error, '');
      return;
    }
    if (addresses.length === 0 || !addresses.every(({ address }) => isPublicAddress(address))) {
      callback(new AddressRefused(`${hostname} is not at a public address`), '');
      return;
    }
    if (options.all) {
      callback(null, addresses);
      return;
    }
    callback(null, addresses[0]!.address, addresses[0]!.family);
  });
};

/**
 * Why an endpoint's address cannot be used, as far as its text tells; null where it can.
 *
 * @param allowPrivate whether http and addresses that are not public may be used
 */
export function urlIssue(text: string, allowPrivate: boolean): string | null {
  const url = URL.canParse(text) ? new URL(text) : null;
  if (!url || (url.protocol !== 'https:' && url.protocol !== 'http:')) return 'must be an https address';
  if (url.username !== '' || url.password !== '') return 'must not hold a name or password';
  if (url.hash !== '') return 'must not hold a fragment';
  if (allowPrivate) return null;
  if (url.protocol !== 'https:') return 'must be an https address';
  return isHiddenHost(url.hostname)
    ? 'must not be a loopback, private or other address that is not public'
    : null;
}

/** A host that is known not to be public without being looked up; URLs have their numbers in one spelling. */
function isHiddenHost(hostname: string): boolean {
  const host = hostname.replace(/^\[(.*)\]$/, '$1').replace(/\.$/, '');
  if (ipaddr.isValid(host)) return !isPublicAddress(host);
  return host === 'localhost' || host.endsWith('.localhost');
}
