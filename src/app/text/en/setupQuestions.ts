const TUBE = "Over its tube or rod, at its thickest between the ends. Its true shape can be drawn later.";
const ON_CHASSIS =
  "The centre of its bush or ball on the chassis, at ride height: dummy bolt through the bracket, measured to the middle between the lugs.";
const ON_HUB =
  "The centre of its ball or bush on the hub, at ride height: dummy bolt and cone, plumb bob to the floor for forward and out.";
const MIDDLE =
  "The middle of the box that it would just fit into, with the powertrain on its blocks at its height and tilt.";
const OVER_ALL = "Over all with calipers or a square against its side: 3 to 5 mm are good enough.";
const LEFT_ONE = "Measure the left one; its image stands on the right.";
const ON_LINE = "On the section's middle line, at its end or where it leaves this corner.";
const CALIPERS = "Outside, with calipers.";
const STROKE = "Its length closed and open says how far the wheel really can move.";
const PUSHED = "Between the middles of the two joints, with the inner joint pushed home.";
const PULLED = "Between the middles of the two joints, pulled until the inner joint would let go.";

/** Of each question of the guided set-up, by its id: the question, how to measure, and what the answer is called. */
export const setupQuestions = {
  title: {
    ask: "What shall this corner be called?",
    how: "The name stands on job cards and in the list of projects.",
    name: "name",
  },
  sides: {
    ask: "Which sides of the car are checked?",
    how: "Measure the left corner. The right one is its image; engine, gearbox and exhaust stand where they are, so the two sides meet different things.",
    name: "sides",
  },
  "wheel-tyre": {
    ask: "What size stands on the tyre?",
    how: "Read it off the sidewall: width in mm, height in percent of it, rim diameter in inches.",
    name: "tyre size",
  },
  "wheel-rimWidth_in": {
    ask: "How wide is the rim?",
    how: "In inches, between the two beads that hold the tyre. It is stamped on a spoke or inside the barrel, such as 6½J.",
    name: "rim width",
  },
  "wheel-rimOffset_mm": {
    ask: "How far out from the rim's middle plane is its hub face?",
    how: "Stamped as ET and a number of mm, mostly beside the rim width. Or lay the wheel face down: height to the hub face less half of the height over the edges. Plus: the hub face lies outboard of the middle.",
    name: "rim offset",
  },
  "wheel-centre": {
    ask: "Where is the wheel's centre?",
    how: "Car at ride height on level ground. Out: tape from the centre string to the rim's two edges, and take the middle. Up: from the ground to the middle of the hub. Forward: nothing, where the axle line is measured from this wheel.",
    name: "wheel centre",
  },
  "wheel-toe_deg": {
    ask: "What toe has the wheel at ride height?",
    how: "Of this one wheel, against the centre string: plus is toe-in. Over a 400 mm rim, 1 mm between front and rear edge is 0.14°.",
    name: "toe",
  },
  "wheel-camber_deg": {
    ask: "What camber has the wheel at ride height?",
    how: "Angle gauge across the rim's edges, upright. Minus: the top leans in.",
    name: "camber",
  },
  "arm-front": {
    ask: "Where is the front bush of the arm?",
    how: "The centre of the bush that the arm swings on, at ride height. A millimetre sideways steers the wheel by 0.12°: take it by tape from three studs if you can.",
    name: "arm, front bush",
  },
  "arm-tube": { ask: "How thick is the arm?", how: TUBE, name: "arm, thickness" },
  "upper-in": { ask: "Where is the inboard end of the upper link?", how: ON_CHASSIS, name: "upper link, inboard end" },
  "upper-out": { ask: "Where is the outboard end of the upper link?", how: ON_HUB, name: "upper link, outboard end" },
  "upper-out-wishbone": {
    ask: "Where is the outboard end of the upper wishbone?",
    how: ON_HUB,
    name: "upper wishbone, outboard end",
  },
  "upper-tube": { ask: "How thick is the upper link?", how: TUBE, name: "upper link, thickness" },
  "upper-tube-wishbone": { ask: "How thick is the upper wishbone?", how: TUBE, name: "upper wishbone, thickness" },
  "lower-in": { ask: "Where is the inboard end of the lower link?", how: ON_CHASSIS, name: "lower link, inboard end" },
  "lower-out": { ask: "Where is the outboard end of the lower link?", how: ON_HUB, name: "lower link, outboard end" },
  "lower-out-wishbone": {
    ask: "Where is the outboard end of the lower wishbone?",
    how: ON_HUB,
    name: "lower wishbone, outboard end",
  },
  "lower-tube": { ask: "How thick is the lower link?", how: TUBE, name: "lower link, thickness" },
  "lower-tube-wishbone": { ask: "How thick is the lower wishbone?", how: TUBE, name: "lower wishbone, thickness" },
  "links-bush": {
    ask: "What are the links' inboard ends?",
    how: "A bush on a bolt that runs fore and aft keeps the link from turning about itself; between two ball joints a cranked link may swing round.",
    name: "links' inboard ends",
  },
  "travel-bump_mm": {
    ask: "How far can the wheel rise from ride height?",
    how: "To where the bump stop is solid. 50 to 75 mm is plenty on the road.",
    name: "bump travel",
  },
  "travel-droop_mm": {
    ask: "How far can the wheel hang below ride height?",
    how: "To where the damper is fully open, or the strap is taut.",
    name: "droop travel",
  },
  "block-there": {
    ask: "Is the engine block near this corner?",
    how: "Whatever a link, tube or tyre could meet is worth a rough box. Finer shapes, or a scan, can take its place later.",
    name: "engine block",
  },
  "block-at": { ask: "Where is the middle of the engine block?", how: MIDDLE, name: "engine block, middle" },
  "block-length_mm": {
    ask: "How long is the engine block, fore and aft?",
    how: OVER_ALL,
    name: "engine block, length",
  },
  "block-width_mm": {
    ask: "How wide is the engine block, across the car?",
    how: OVER_ALL,
    name: "engine block, width",
  },
  "block-height_mm": { ask: "How high is the engine block?", how: OVER_ALL, name: "engine block, height" },
  "sump-there": {
    ask: "Is the sump near this corner?",
    how: "The lowest and often the widest thing of an engine.",
    name: "sump",
  },
  "sump-at": {
    ask: "Where is the middle of the sump's top rail?",
    how: "The face that it is bolted to the block by, in its middle.",
    name: "sump, top of its rail",
  },
  "sump-length_mm": { ask: "How long is the sump below its rail, fore and aft?", how: OVER_ALL, name: "sump, length" },
  "sump-width_mm": { ask: "How wide is the sump below its rail, across the car?", how: OVER_ALL, name: "sump, width" },
  "sump-depth_mm": {
    ask: "How deep is the sump below its rail?",
    how: "From the rail's lower face to the lowest point of the pan, the plug left out.",
    name: "sump, depth",
  },
  "gearbox-there": {
    ask: "Is the gearbox near this corner?",
    how: "Beside the engine across the car, or in line with it.",
    name: "gearbox",
  },
  "gearbox-at": { ask: "Where is the middle of the gearbox?", how: MIDDLE, name: "gearbox, middle" },
  "gearbox-length_mm": { ask: "How long is the gearbox, fore and aft?", how: OVER_ALL, name: "gearbox, length" },
  "gearbox-width_mm": { ask: "How wide is the gearbox, across the car?", how: OVER_ALL, name: "gearbox, width" },
  "gearbox-height_mm": { ask: "How high is the gearbox?", how: OVER_ALL, name: "gearbox, height" },
  "differential-there": {
    ask: "Is the differential near this corner?",
    how: "Its casing with the bearings that the driveshafts come out of.",
    name: "differential",
  },
  "differential-at": { ask: "Where is the middle of the differential?", how: MIDDLE, name: "differential, middle" },
  "differential-length_mm": {
    ask: "How long is the differential, fore and aft?",
    how: OVER_ALL,
    name: "differential, length",
  },
  "differential-width_mm": {
    ask: "How wide is the differential, across the car?",
    how: OVER_ALL,
    name: "differential, width",
  },
  "differential-height_mm": { ask: "How high is the differential?", how: OVER_ALL, name: "differential, height" },
  "rock-there": {
    ask: "Does the powertrain rock on its mounts?",
    how: "On rubber it always does: its nose dips one way under power and the other way on the overrun. Every pair is then checked in both.",
    name: "engine rock",
  },
  "engine-rock": {
    ask: "About which line across the car does it rock?",
    how: "The line through the two main mounts, or through the middle of three. Only forward and up matter.",
    name: "engine rock, axis",
  },
  "rock-pulling_deg": {
    ask: "By how much does it rock under power?",
    how: "Lever it with a bar at the crank end, angle gauge on a machined face. Plus: the front goes down. Soft mounts 3, stiff ones 1 degree.",
    name: "engine rock under power",
  },
  "rock-overrun_deg": {
    ask: "By how much does it rock on the overrun?",
    how: "The other way: levered against its mounts, it mostly moves less.",
    name: "engine rock on the overrun",
  },
  "upper-rail-there": {
    ask: "Is there an upper frame rail beside the wheel?",
    how: LEFT_ONE,
    name: "upper frame rail",
  },
  "upper-rail-a": {
    ask: "Where does the upper frame rail end at the rear?",
    how: ON_LINE,
    name: "upper frame rail, rear end",
  },
  "upper-rail-b": {
    ask: "Where does the upper frame rail end in front?",
    how: ON_LINE,
    name: "upper frame rail, front end",
  },
  "upper-rail-height_mm": {
    ask: "How high is the section of the upper frame rail?",
    how: CALIPERS,
    name: "upper frame rail, section height",
  },
  "upper-rail-width_mm": {
    ask: "How wide is the section of the upper frame rail?",
    how: CALIPERS,
    name: "upper frame rail, section width",
  },
  "lower-rail-there": { ask: "Is there a lower frame rail?", how: LEFT_ONE, name: "lower frame rail" },
  "lower-rail-a": {
    ask: "Where does the lower frame rail end at the rear?",
    how: ON_LINE,
    name: "lower frame rail, rear end",
  },
  "lower-rail-b": {
    ask: "Where does the lower frame rail end in front?",
    how: ON_LINE,
    name: "lower frame rail, front end",
  },
  "lower-rail-height_mm": {
    ask: "How high is the section of the lower frame rail?",
    how: CALIPERS,
    name: "lower frame rail, section height",
  },
  "lower-rail-width_mm": {
    ask: "How wide is the section of the lower frame rail?",
    how: CALIPERS,
    name: "lower frame rail, section width",
  },
  "cross-tube-there": {
    ask: "Does a cross tube run behind or before the axle?",
    how: "From one side of the car to the other.",
    name: "cross tube",
  },
  "cross-tube-a": { ask: "Where is the cross tube's left end?", how: ON_LINE, name: "cross tube, left end" },
  "cross-tube-b": {
    ask: "Where is the cross tube's right end?",
    how: "Out from the centre plane is minus for what lies on the right.",
    name: "cross tube, right end",
  },
  "cross-tube-diameter_mm": { ask: "How thick is the cross tube?", how: CALIPERS, name: "cross tube, thickness" },
  "damper-there": { ask: "Is there a damper to place?", how: STROKE, name: "damper" },
  "damper-there-strut": { ask: "Is the strut's damper chosen?", how: STROKE, name: "damper" },
  "damper-top": {
    ask: "Where is the damper's top eye?",
    how: "The centre of its bolt, between the lugs.",
    name: "damper, top",
  },
  "damper-bottom": {
    ask: "Where is the damper's bottom eye?",
    how: "The centre of its bolt, with the car at ride height.",
    name: "damper, bottom",
  },
  "damper-on": {
    ask: "What holds the damper's lower end?",
    how: "On an arm or wishbone the damper moves less than the wheel.",
    name: "damper's lower end",
  },
  "damper-closed_mm": {
    ask: "How long is the damper when it is fully closed?",
    how: "From eye centre to eye centre; for a pin mount, from the shoulder. Spring off, pushed home.",
    name: "damper, closed",
  },
  "damper-open_mm": {
    ask: "How long is the damper when it is fully open?",
    how: "From eye centre to eye centre; for a pin mount, from the shoulder. Hanging free.",
    name: "damper, open",
  },
  "damper-body_mm": { ask: "How thick is the damper's body?", how: CALIPERS, name: "damper, body" },
  "spring-there": {
    ask: "Does the spring sit round the damper?",
    how: "It is the thickest part of the damper, and the first to meet a tyre.",
    name: "spring",
  },
  "damper-spring_mm": {
    ask: "How thick is the spring, outside?",
    how: "Over the coils, with calipers.",
    name: "spring, diameter",
  },
  "damper-springRate_N_per_mm": {
    ask: "How stiff is the spring?",
    how: "Printed on it, often in pounds per inch: times 0.175 gives N/mm.",
    name: "spring rate",
  },
  "stop-there": {
    ask: "Is there a bump stop on the damper's rod?",
    how: "There should be one, solid 5 to 10 mm before the damper closes.",
    name: "bump stop",
  },
  "damper-stopTouches_mm": {
    ask: "How long is the damper when the bump stop touches?",
    how: "From eye centre to eye centre; for a pin mount, from the shoulder. Spring off, pushed in until the rubber just meets the body.",
    name: "bump stop touches",
  },
  "damper-stopSolid_mm": {
    ask: "How long is the damper when the bump stop is solid?",
    how: "A rubber gives about half of its height, then it is as good as steel.",
    name: "bump stop solid",
  },
  "bar-there": {
    ask: "Is there an anti-roll bar?",
    how: "Its arm sweeps through a lot of room, and its drop link may turn over.",
    name: "anti-roll bar",
  },
  "bar-pivot": {
    ask: "Where does the anti-roll bar turn?",
    how: "The middle of its rubber bush on the frame, on the bar's own line.",
    name: "anti-roll bar, pivot",
  },
  "bar-arm": {
    ask: "Where is the end of the bar's arm?",
    how: "The hole or ball that the drop link hangs on.",
    name: "anti-roll bar, arm end",
  },
  "bar-pickup": {
    ask: "Where is the drop link's other end?",
    how: "The ball or bolt at the arm, wishbone or hub.",
    name: "drop link, other end",
  },
  "bar-on": {
    ask: "What does the drop link hold on to?",
    how: "The part that its lower ball or bolt sits on.",
    name: "drop link's holder",
  },
  "bar-diameter_mm": {
    ask: "How thick is the anti-roll bar?",
    how: "Outside, with calipers, where it is straight.",
    name: "anti-roll bar, thickness",
  },
  "shaft-there": {
    ask: "Is there a driveshaft to this wheel?",
    how: "Its lengths and angles are checked through the whole travel.",
    name: "driveshaft",
  },
  "shaft-in": {
    ask: "Where is the middle of the inner joint?",
    how: "On the output's own line. The middle of the joint's balls or rollers at ride height, depth gauge from its open face.",
    name: "driveshaft, inner joint",
  },
  "shaft-out": {
    ask: "Where is the middle of the outer joint?",
    how: "On the wheel's own line, inboard of the hub: the centre of the joint's cage.",
    name: "driveshaft, outer joint",
  },
  "shaft-diameter_mm": {
    ask: "How thick is the driveshaft?",
    how: "Between the boots, with calipers.",
    name: "driveshaft, thickness",
  },
  "shaft-shortest_mm": { ask: "How short can the driveshaft get?", how: PUSHED, name: "driveshaft, shortest" },
  "shaft-longest_mm": { ask: "How long can the driveshaft get?", how: PULLED, name: "driveshaft, longest" },
  "shaft-innerAngleLimit_deg": {
    ask: "How far can the inner joint bend?",
    how: "On the bench, until its parts touch: 22 to 31 degrees by type.",
    name: "inner joint's bend",
  },
  "shaft-outerAngleLimit_deg": {
    ask: "How far can the outer joint bend?",
    how: "On the bench, until its parts touch: 40 to 50 degrees by type.",
    name: "outer joint's bend",
  },
  "shaft-right": {
    ask: "Is the right inner joint the left one's image?",
    how: "With an engine that sits to one side it is not: then the right shaft has another length.",
    name: "right inner joint",
  },
  "shaft-right-inner": {
    ask: "Where is the middle of the right inner joint?",
    how: "As on the left. Out is counted from the centre plane to the right.",
    name: "driveshaft, right inner joint",
  },
  "shaft-right-shortest_mm": {
    ask: "How short can the right driveshaft get?",
    how: PUSHED,
    name: "right driveshaft, shortest",
  },
  "shaft-right-longest_mm": {
    ask: "How long can the right driveshaft get?",
    how: PULLED,
    name: "right driveshaft, longest",
  },
  "gaps-default": {
    ask: "What gap do you want between parts that move?",
    how: "A finger, 10 to 15 mm, is what inspectors put between a rubber-mounted engine and anything fixed.",
    name: "wanted gap",
  },
  "gaps-tyre": {
    ask: "What gap do you want round the tyre?",
    how: "Tyres bulge and grow: 10 to 15 mm through the whole travel.",
    name: "wanted gap round the tyre",
  },
  "gaps-exhaust": {
    ask: "What gap do you want round the exhaust?",
    how: "25 mm to shielded things, 50 mm to bare rubber boots.",
    name: "wanted gap round the exhaust",
  },
  "upper-front": {
    ask: "Where is the front pivot of the upper wishbone?",
    how: ON_CHASSIS,
    name: "upper wishbone, front pivot",
  },
  "upper-rear": {
    ask: "Where is the rear pivot of the upper wishbone?",
    how: ON_CHASSIS,
    name: "upper wishbone, rear pivot",
  },
  "lower-front": {
    ask: "Where is the front pivot of the lower wishbone?",
    how: ON_CHASSIS,
    name: "lower wishbone, front pivot",
  },
  "lower-rear": {
    ask: "Where is the rear pivot of the lower wishbone?",
    how: ON_CHASSIS,
    name: "lower wishbone, rear pivot",
  },
  "toe-in": { ask: "Where is the inboard end of the toe link?", how: ON_CHASSIS, name: "toe link, inboard end" },
  "toe-out": { ask: "Where is the outboard end of the toe link?", how: ON_HUB, name: "toe link, outboard end" },
  "toe-tube": { ask: "How thick is the toe link?", how: TUBE, name: "toe link, thickness" },
  "arm-outer": {
    ask: "Where is the outer bush of the arm?",
    how: "The centre of its bush or ball on the chassis, at ride height: dummy bolt through the bracket, measured to the middle between the lugs. Ten millimetres up or down change the toe by a third of a degree over the travel.",
    name: "arm, outer bush",
  },
  "arm-inner": { ask: "Where is the inner bush of the arm?", how: ON_CHASSIS, name: "arm, inner bush" },
  "leg-top": {
    ask: "Where is the strut's top mount?",
    how: "The centre of the ball or rubber that the rod hangs in, below the tower's plate.",
    name: "strut, top mount",
  },
  "leg-bottom": {
    ask: "Where does the strut's middle line meet the hub?",
    how: "On the strut's own middle line, at the height of the clamp or the two bolts of the hub.",
    name: "strut, lower end",
  },
  "upper-front-in": {
    ask: "Where is the inboard end of the upper front link?",
    how: ON_CHASSIS,
    name: "upper front link, inboard end",
  },
  "upper-front-out": {
    ask: "Where is the outboard end of the upper front link?",
    how: ON_HUB,
    name: "upper front link, outboard end",
  },
  "upper-front-tube": { ask: "How thick is the upper front link?", how: TUBE, name: "upper front link, thickness" },
  "upper-rear-in": {
    ask: "Where is the inboard end of the upper rear link?",
    how: ON_CHASSIS,
    name: "upper rear link, inboard end",
  },
  "upper-rear-out": {
    ask: "Where is the outboard end of the upper rear link?",
    how: ON_HUB,
    name: "upper rear link, outboard end",
  },
  "upper-rear-tube": { ask: "How thick is the upper rear link?", how: TUBE, name: "upper rear link, thickness" },
  "lower-front-in": {
    ask: "Where is the inboard end of the lower front link?",
    how: ON_CHASSIS,
    name: "lower front link, inboard end",
  },
  "lower-front-out": {
    ask: "Where is the outboard end of the lower front link?",
    how: ON_HUB,
    name: "lower front link, outboard end",
  },
  "lower-front-tube": { ask: "How thick is the lower front link?", how: TUBE, name: "lower front link, thickness" },
  "lower-rear-in": {
    ask: "Where is the inboard end of the lower rear link?",
    how: ON_CHASSIS,
    name: "lower rear link, inboard end",
  },
  "lower-rear-out": {
    ask: "Where is the outboard end of the lower rear link?",
    how: ON_HUB,
    name: "lower rear link, outboard end",
  },
  "lower-rear-tube": { ask: "How thick is the lower rear link?", how: TUBE, name: "lower rear link, thickness" },
} as const;
