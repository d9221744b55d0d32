/**
 * Room to work in that is used again from call to call: new arrays cost more than what is written into them. What it
 * held is lost with the next call of the same function, so that nothing in it may be returned to be kept.
 */
export function scratch(): (length: number) => Float64Array {
  let room = new Float64Array(0);
  return (length) => {
    if (room.length < length) room = new Float64Array(2 * length);
    return room;
  };
}
