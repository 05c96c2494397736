/** What `--help` prints: of everything, or of one verb. */

const VERBS_TOLD = `  check SCENE            what touches, over the whole travel and every engine pose
  curves SCENE           wheel angles, roll centre, anti-squat, damper, driveshaft and bar against travel, as CSV
  shaft SCENE            driveshafts: plunge and angles over the travel and every engine pose, which length to order
  spring SCENE           damper, spring, stop, strap and bar: ratio, wheel rate, frequency, what ends the travel each way
  joints SCENE           how far every ball, rod end and bush tilts and turns, and how it is pulled against its bolt
  loads SCENE            forces in every part under the load cases, and the given sizes screened
  room SCENE             where a hard point may live: all clearances, wheel angles and limits asked together
  moves SCENE            the smallest moves that clear what clashes or is tight, each with its price
  jig SCENE              how exactly each mount must be placed, and what all tolerances together do
  asbuilt SCENE          angles, thrust and clearances with the mounts where they were measured, and what brings them back
  service SCENE          whether tools reach and parts come out, at ride height and hanging, and what would free them
  together SCENE         what must clear, parts that cross sides with one wheel up and one down, and what cannot happen together
  points SCENE           hard points as CSV; with --from FILE.csv the scene with its points where that table has them
  export SCENE           the parts as they stand at one travel and engine pose: GLB, OBJ or STL
  template SCENE         plates laid flat or unfolded and tube ends to wrap: DXF, SVG, and PDF at full size
  picture SCENE          the car to scale in one state, with dimensions and gaps, as PNG or SVG
  report LOG             a saved build log (JSON, zip or page): its cards and what is still open
  pointsheet SCENE       hard points for the wall: drawn, left, right, difference, how measured
  jigsheet SCENE         heights over the jig table, and lengths between mounts for a tape
  cutlist SCENE          tubes with cut lengths and thread left, bolts, rod ends and plates counted
  merge FILE…            shards of one room map, as room --json printed them, as one`;

const EVERY_VERB = `  --json                 one JSON document on standard output, nothing else (not curves)
  --travel FROM:TO:STEP  in place of the scene's own travel, mm (droop negative)
  --pose ID              one powertrain pose (check, curves)
  --roll FROM:TO:STEP    curves: against body roll instead of travel, degrees
  --spare MM             shaft: plunge wanted to spare at each end (3: common practice)`;

/** Options of their own, by the verbs that take them. */
const SECTIONS: readonly (readonly [verbs: readonly string[], told: string])[] = [
  [
    ["room", "moves"],
    `room:
  --point NAME           the hard point; twice: two that move together
  --fit cut|bolted       cut to suit, the wheel stays (the default), or bolted up, every part as long as it is
  --forward FROM:TO      room to look at, mm from where the point is; likewise --out and --up; one makes a line, two a plane
  --line F,O,U=FROM:TO   along one direction instead
  --step MM              between places (5)
  --toe-change DEG       most that toe may be, at any travel, from toe at ride height now
  --camber FROM:TO       range of camber, degrees
  --half-track-change MM most that half the track may be from now at ride height
  --damper-ratio FROM:TO range of damper shortening per wheel travel
  --length ID=FROM:TO    range of a member's length, mm
  --leave-out A/B        a pair, or a limit such as damper-length, that shall not count
  --travel-step MM       between travels that are asked (10); a chosen place is checked over all of them
  --shard I/N            the I-th of N parts of the work; merge puts them together
  --place F,O,U          take the point there, check it in full and tell what it costs`,
  ],
  [
    ["moves"],
    `moves (limits as for room):
  --pair A/B             clear this pair (all that clash or are tight)
  --point NAME           a point that may move; once or more (every point on the chassis)
  --fit cut|bolted       one of the two (both)
  --within MM            how far a point may go (25)`,
  ],
  [
    ["jig"],
    `jig:
  --toe-within DEG       how far toe at ride height may be off (0.1); likewise --camber-within (0.25)
  --accuracy MM          how closely you place a mount, each way (1); points with a tolerance of their own keep it
  --tolerance NAME=MM    of one mount
  --samples N --seed N   corners drawn at random (500, 1)
  --mount NAME           where must it go, every part as it is, for --toe DEG, --camber DEG or both to be right?`,
  ],
  [
    ["asbuilt"],
    `asbuilt (--toe-within 0.02 and --camber-within 0.1 say how near the angles shall come back):
  --slot NAME=WAY:FROM:TO:STEP  a mount that can be set along forward, out or up, mm from where it is; likewise --shim
  --adjuster ID=FROM:TO:STEP    a link that can be made longer (+) or shorter
  --pull NAME=MM                a rehearsal: how far welding may pull this mount; what that does at worst, and what the above recover`,
  ],
  [
    ["service"],
    `service (the scene's own jobs, or one that is described here):
  --job ID               one of the scene's jobs; once or more (all)
  --on ID --place F,O,U --facing F,O,U --socket DIAMETERxLENGTH
                         a socket on a bolt or plug there, in a part or on what moves it
  --part ID --straight F,O,U=MM
                         a part out along a direction, several one after another; without --straight: every straight way
  --without ID           a part that is off by then, or a joint whose bolt is out; once or more`,
  ],
  [
    ["points", "export"],
    `points and export:
  --datum ID             points: measured from one of the scene's datums (the car's: axle line, centre plane, ground)
  --to FILE              export: FILE.glb (metres, Y up), FILE.obj or FILE.stl (mm), or FOLDER/ for an STL of each part
  --part ID              export: one part
  --at MM --pose ID      export: travel (0) and engine pose (at rest)`,
  ],
  [
    ["template"],
    `template:
  --to FILE              FILE.pdf (1:1, over several pages where it must), FILE.dxf, FILE.svg, or FOLDER/ for all of each
  --part ID              one part (brackets, frame and arms that are made)
  --fold ID              folded from one plate instead of welded from several; once or more
  --k-factor K           where the neutral line lies, by thickness (0.41: soft steel); --bend-radius MM inside (the thickness)
  --paper a4|letter      of a PDF (a4); --revision TEXT --date TEXT as they shall stand on it
  --measured MM          what the printed 100 mm bar measured, or ACROSS,DOWN: the sheet is corrected for that printer
  --bare                 DXF and SVG with nothing but what is cut, folded and etched`,
  ],
  [
    ["picture"],
    `picture:
  --to FILE              FILE.png, which prints at its own size, or FILE.svg
  --view NAME            rear (default), front, left, right, plan, below, or corner, which is not to scale
  --at MM|worst          travel (0), or where the gap of --gap A/B, or of any pair, is smallest; --pose ID
  --dimension FROM/TO    between hard points (NAME, NAME@right) or places F,O,U; with =forward, =out or =up that way alone
  --gap A/B|worst|all    a gap with arrows, the worst, or of all that is nearer than it must be
  --measure ID           a pinned measure (all that are shown; "none")
  --side left|right      one side alone; --outline ID and --without ID: parts as outlines, or left out; --around ID: fill the picture with these
  --scale 1:N            the largest that fits and that a rule can be used with, unless given
  --paper a4|letter      a lying sheet (a4), or a standing one with --portrait; --dpi N (300)
  --size WxH             pixels instead, up to 4096 each way
  --datum ID --units mm|in --revision TEXT --date TEXT --built --note TEXT`,
  ],
  [
    ["report"],
    `report:
  --to FILE              FILE.html (one page with all in it), FILE.pdf, FILE.zip (pictures, JSON, Markdown), FILE.json or FILE.md
  --card N               this card; once or more (all)
  --paper a4|letter      of a PDF (a4)
  --units mm|in          lengths told in (mm)`,
  ],
  [
    ["pointsheet", "jigsheet", "cutlist"],
    `pointsheet, jigsheet, cutlist (a table as CSV, or what --to names):
  --to FILE              FILE.pdf or FILE.csv
  --paper a4|letter      of the PDF (a4); likewise --units mm|in, --revision TEXT, --date TEXT (today)
  --datum ID             measured from one of the scene's datums (not cutlist)
  --built                pointsheet: as measured, in place of boxes to write in
  --table MM             jigsheet: the table's top, read up from the datum (the ground)
  --bar MM               jigsheet: diameter of dummy bars in the bushes, for the stands under them
  --saw MM --trim MM     cutlist: width of a saw cut (2) and what is left on each end for dressing (0)
  --stock MM             cutlist: length of the bars that are bought`,
  ],
];

const END = `Exit status: 0 nothing clashes, no limit is passed, no factor is below its target (room, moves: there is one; jig: no
mount is tighter than you place it; service: every job can be done; asbuilt: what is stated
brings the angles back, with --pull in every case; spring: nothing ends the scene's travel early; report: nothing is open;
cutlist: every tube has its length; template: nothing falls short of a rule); 1 something is (there is none; one is); 2 the input is bad, or (check) a part was too large to be checked; 3 the program itself failed.
Geometry only, rigid parts: prove it by hand with the spring out, on stands.
Loads: a reason to stop or to go on to a competent engineer, not a licence to drive.
`;

export function usage(): string {
  const sections = SECTIONS.map(([, told]) => told);
  return [usageLine("VERB SCENE"), VERBS_TOLD, EVERY_VERB, ...sections, END].join("\n\n");
}

/** Of one verb alone, which takes these of the options that several take; its limits too where it takes those of another. */
export function usageOf(verb: string, options: readonly string[]): string {
  const told = VERBS_TOLD.split("\n").find((line) => line.trim().startsWith(`${verb} `));
  const [, takes = "SCENE", what = ""] = /^\s*\S+ (\S+)\s+(.*)$/.exec(told ?? "") ?? [];
  const shared = EVERY_VERB.split("\n").filter((line) => {
    const option = /^\s*--(\S+)/.exec(line)![1]!;
    return option === "json" || options.includes(option);
  });
  const sections = SECTIONS.filter(([verbs]) => verbs.includes(verb)).map(([, text]) => text);
  return [usageLine(`${verb} ${takes}`), what, shared.join("\n"), ...sections, END].join("\n\n");
}

function usageLine(what: string): string {
  return `usage: npm run -s elbowroom -- ${what} [options]`;
}
