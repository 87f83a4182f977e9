/**
 * The words of every caution. They are reminders: the vehicle maker's own procedure goes first, always.
 * Sources: common practice in the trade (no source) unless a line names another one.
 */

/**
 * `stop`: show it and go on only after a typed "yes". `refuse`: the step is not recorded at all.
 * `note`: show it, go on.
 */
export type CautionWeight = 'note' | 'stop' | 'refuse';

export const CAUTION_TEXTS = {
  'jumper-fused': [
    'note',
    // Common practice, one published service page gives about 5 A.
    'Use a jumper lead with a fuse of its own (about 5 A). Bridge only where the circuit may be open, never across a load, and take it off after the test.',
  ],
  'jumper-short': [
    'stop',
    'This jumper would join battery feed and ground with no load between: a dead short. Check both ends before you clip it on.',
  ],
  'jumper-motion': [
    'stop',
    "This jumper can make something move without warning. Chock the wheels, set the parking brake, keep hands, hair and clothes clear, and tell everyone near the vehicle. Follow the maker's procedure.",
  ],
  'jumper-cranks': [
    'stop',
    "This jumper can crank the engine. Gear lever in neutral or park, parking brake on, wheels chocked, nobody near belts or under the vehicle. Follow the maker's procedure.",
  ],
  'jumper-fuel': [
    'stop',
    "This jumper can run a fuel pump. No open fuel line, no flame or spark, ventilate, and have an extinguisher at hand. Follow the maker's procedure.",
  ],
  'control-motion': [
    'note',
    'Operating this can set the vehicle or a part of it moving. Wheels chocked, parking brake on, engine off unless the test needs it, nobody in the way.',
  ],
  'control-cranks': [
    'note',
    // Common practice; one published workshop manual gives 30 s and 2 min.
    "This can crank the engine. Neutral or park, parking brake on, wheels chocked. Not longer than 30 s at a time, then 2 minutes' rest.",
  ],
  'control-fuel': ['note', 'This can run a fuel pump. No open fuel line, no flame or spark, and ventilate.'],
  'control-fan': ['note', 'This can start a fan. Keep hands, leads and loose clothes out of its way.'],
  'engine-running': [
    'note',
    'Engine running: keep hands, leads and clothes away from belts and fans, lead the exhaust outside, parking brake on, neutral or park.',
  ],
  'battery-engine': [
    'stop',
    "Never take the battery off with the engine running: the alternator's voltage surge can destroy electronics. Stop the engine first.",
  ],
  'fuse-engine': [
    'stop',
    "Pulling a fuse or a connector with the engine running can stall it, switch off braking or steering help, and spark. Stop the engine first unless the maker's procedure says otherwise.",
  ],
  'battery-gas': [
    'note',
    // US Army TM 5-2420-230-24-2 (ventilate; negative first); 4 % in air: common knowledge.
    'A battery gives off explosive gas: ventilate, no sparks or flame near it. Negative off first and on last. Goggles and gloves; no rings or watches.',
  ],
  airbag: [
    'stop',
    "Airbag or belt-tensioner wiring may run here (steering wheel, column, seats; often yellow). No meter, test lamp, jumper or unplugging on it: an airbag can go off. Make it safe by the maker's procedure first; the waiting time differs by vehicle.",
  ],
  'fan-key-off': [
    'note',
    'A fan here can start by itself, even with the key off. Keep hands and leads clear, or disconnect it first.',
  ],
  roadside: [
    'note',
    'Beside traffic: warning triangle or beacon out, hi-vis clothing on, people behind the barrier. If the place is not safe, move the vehicle first.',
  ],
  hot: ['note', 'Hot parts here (lamps and resistors stay hot after use). Let them cool or use gloves.'],
  ballast: [
    'stop',
    "A gas-discharge lamp's ballast makes several thousand volts. Do not probe or unplug it with the lamp switched on; switch off, wait, and follow the maker's procedure.",
  ],
  'ohms-live': [
    'stop',
    'By the drawing this line is live in the present set-up. Ohms and continuity only on a dead circuit: on a live one the figure means nothing and the meter may be damaged. Switch off and pull the fuse, unplug the part, or take the battery off first; or take volts here instead.',
  ],
  'ohms-dead': [
    'note',
    "Ohms and continuity only with the circuit dead, and nothing in parallel. A good ohms reading does not prove that a joint carries the load's current.",
  ],
  'amps-series': [
    'note',
    "Ammeter only in series, never across a load or the battery, and only if the current is below the meter's own fuse (often 10 A); use a clamp above that.",
  ],
  'meter-sockets': [
    'note',
    'The last test was a current test: put the red lead back into the volts socket before you touch a live point, or the meter is a dead short.',
  ],
  'test-lamp-modules': [
    'note',
    'A filament test lamp only on feeds and grounds, never on signal lines of electronic modules: it can draw more than they can give. Use a meter there.',
  ],
  'test-lamp-module': [
    'stop',
    'This line belongs to an electronic module: a test lamp may harm electronics. Use a meter, or unplug the module first.',
  ],
  'jumper-module': [
    'stop',
    'This line belongs to an electronic module: a jumper here may harm it. Unplug the module first, or be sure what the line may be joined to.',
  ],
  'jumper-module-output': [
    'refuse',
    'This jumper would work against an output of an electronic module that is still connected, and can destroy it. Unplug the module first.',
  ],
  'airbag-line': [
    'refuse',
    "This is an airbag or belt-tensioner line: no meter, test lamp or jumper on it. Work on it only by the maker's procedure.",
  ],
  'fuse-rating': [
    'note',
    'Fit only a fuse of the rating in the drawing; never a bigger one, never a wire bridge. If it blows again the cause is still there.',
  ],
  'second-fuse': [
    'stop',
    // FUSE and PLACES are put in where it is shown. The lamp in place of the fuse: common practice, no source.
    'A short behind FUSE is still suspected (PLACES): another fuse would most likely blow too. Hang a test lamp in its place instead (line: lamp FUSE); while it stays lit the short is there. Or look for it without power: battery off, loads unplugged, ohms to body, section by section.',
  ],
  'trip-again': [
    'stop',
    'A short behind BREAKER is still suspected (PLACES): closed again it would most likely open again. Look for the short without power first: battery off, loads unplugged, ohms to body, section by section.',
  ],
  'lamp-in-place': [
    'note',
    "The test lamp in place of the fuse carries the circuit's current: use a filament lamp of 21 W or more, hang it clear of plastic and paint (it gets hot), and expect the loads behind it to be dim or off.",
  ],
  'reset-once': [
    'note',
    'Let it cool, then reset it once. If it trips again the cause is still there: do not hold it in or reset it again and again.',
  ],
  'never-probe': [
    'refuse',
    "The drawing marks this as never to be probed. The reading is not taken; use the maker's procedure for this line.",
  ],
  'orange-cable': [
    'note',
    // Orange covering for high voltage: US FMVSS 305. The 60 V d.c. limit: from memory.
    'If this is a thick cable in an orange covering it is high voltage (over 60 V): stop, do not touch it. This program is for low-voltage circuits only.',
  ],
  'high-voltage': [
    'refuse',
    'Over 60 V d.c. is outside this program and can kill. Stop; only people trained for high-voltage vehicles work there.',
  ],
} as const satisfies Record<string, readonly [CautionWeight, string]>;

export type CautionId = keyof typeof CAUTION_TEXTS;
