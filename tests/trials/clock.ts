/** Time that a part of a trial has really worked, whatever else the computer does meanwhile. */
export function workedMilliseconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
}
