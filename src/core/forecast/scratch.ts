/**
 * A reusable buffer, since allocating arrays costs more than filling them. Each call overwrites the last contents, so a
 * caller must never keep or return the array.
 */
export function scratch(): (length: number) => Float64Array {
  let room = new Float64Array(0);
  return (length) => {
    if (room.length < length) room = new Float64Array(2 * length);
    return room;
  };
}
