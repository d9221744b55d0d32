import ipaddr from 'ipaddr.js';

/** An IPv6 user usually controls a whole /64, so the /64 counts as one address. */
export function networkOf(address: string): string {
  // A proxy may pass on something that is not an address.
  if (!ipaddr.isValid(address)) return address;
  const parsed = ipaddr.process(address);
  return parsed.kind() === 'ipv4' ? parsed.toString() : parsed.toNormalizedString().split(':', 4).join(':');
}
