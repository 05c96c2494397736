export const words = {
  sides: { left: "left", right: "right", both: "both sides" },
  closer: { left: "both sides, left is closer", right: "both sides, right is closer" },
  twoSides: "Both sides",
  under: "under {{amount}}",
  pair: {
    meets: "{{a}} meets {{b}}: <b>{{amount}} too deep</b> at {{where}}",
    meetsAlways: "{{a}} meets {{b}}: <b>{{amount}} too deep</b> whatever the travel",
    passes: "{{a}} passes {{b}} <b>{{amount}}</b> off at {{where}}",
    passesAlways: "{{a}} passes {{b}} <b>{{amount}}</b> off, whatever the travel",
    passesAtLeast: "{{a}} passes {{b}} <b>{{amount}}</b> off",
  },
  wants: "wants {{wanted}}",
  pairWants: "{{state}}; wants {{wanted}}",
  limits: {
    "shaft-length": {
      over: "Driveshaft is <b>{{amount}} too short</b> at {{where}}",
      under: "Driveshaft is <b>{{amount}} too long</b> at {{where}}",
      spare: "Driveshaft has <b>{{amount}} to spare</b> at {{where}}",
    },
    "damper-length": {
      over: "Damper tops out: <b>{{amount}} past its end</b> at {{where}}",
      under: "Damper closes up: <b>{{amount}} past its end</b> at {{where}}",
      spare: "Damper has <b>{{amount}} to spare</b> at {{where}}",
    },
    stop: {
      over: "Bump stop is solid: <b>{{amount}} past it</b> at {{where}}",
      spare: "Bump stop has <b>{{amount}} to spare</b> at {{where}}",
    },
    strap: {
      over: "Droop strap is tight: <b>{{amount}} past it</b> at {{where}}",
      spare: "Droop strap has <b>{{amount}} to spare</b> at {{where}}",
    },
    "coil-bind": {
      over: "Spring is coil-bound: <b>{{amount}} past it</b> at {{where}}",
      spare: "Spring's turns have <b>{{amount}} to spare</b> at {{where}}",
    },
    "inner-angle": {
      over: "Inner shaft joint bends <b>{{amount}} too far</b> at {{where}}",
      spare: "Inner shaft joint has <b>{{amount}} to spare</b> at {{where}}",
    },
    "outer-angle": {
      over: "Outer shaft joint bends <b>{{amount}} too far</b> at {{where}}",
      spare: "Outer shaft joint has <b>{{amount}} to spare</b> at {{where}}",
    },
    "joint-tilt": {
      over: "{{joint}}: <b>tilts {{amount}} too far</b> at {{where}}",
      spare: "{{joint}}: <b>{{amount}} of tilt to spare</b> at {{where}}",
    },
    "joint-twist": {
      over: "{{joint}}: <b>twists {{amount}} too far</b> at {{where}}",
      spare: "{{joint}}: <b>{{amount}} of twist to spare</b> at {{where}}",
    },
    binds: {
      over: "The corner <b>binds</b> at {{where}}",
      spare: "The corner <b>runs through</b> its whole travel",
    },
  },
  limitState: {
    at: "{{side}}, {{engine}}",
    from: "{{side}}, {{engine}} from {{where}}",
    binds: "{{side}}; shown only up to there",
  },
  limitReading: {
    limit: "{{state}}; {{value}}, limit {{limit}}",
    shortest: "{{state}}; {{value}}, shortest {{limit}}",
    longest: "{{state}}; {{value}}, longest {{limit}}",
  },
  travel: { bump: "{{travel}} bump", droop: "{{travel}} droop", ride: "ride height" },
  travelRange: "{{from}} to {{to}}",
  ways: {
    forward: "forward",
    back: "back",
    left: "left",
    right: "right",
    outboard: "outboard",
    inboard: "inboard",
    up: "up",
    down: "down",
  },
  eye: { ahead: "ahead", behind: "behind", left: "the left", right: "the right", above: "above", below: "below" },
  bodies: {
    bar: "Anti-roll bar",
    "bar-link": "Anti-roll bar link",
    "damper-upper": "Damper rod",
    "damper-lower": "Damper body",
  },
  members: { link: "{{name}} link", wishbone: "{{name}} wishbone", strut: "{{name}} strut" },
  memberKinds: { link: "link", wishbone: "wishbone", strut: "strut" },
  poses: { rest: "at rest", pulling: "pulling", overrun: "overrun" },
  engine: {
    rest: "engine at rest",
    pulling: "engine pulling",
    overrun: "engine on overrun",
    doing: "engine {{pose}}",
    other: "engine on {{pose}}",
    onTheWay: "engine {{percent}} % of the way to {{pose}}",
  },
  refusal: "{{wrong}} Wanted: {{wanted}}.",
  jams: {
    move: "The parts keep their lengths and jam after {{percent}} % of this move. Move it less, or cut to suit.",
    way: "The parts keep their lengths and jam after {{percent}} % of the way from where the mounts are drawn. Move it less, or cut to suit.",
  },
} as const;
