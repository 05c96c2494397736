// `npm run bench`: speed as it is on this machine; what counts is the ratio to the peer run in the same rounds.
import { benchKinematics } from "./kinematics.ts";
import { benchScenes } from "./scenes.ts";

const say = (line: string) => console.log(line);

say("Kinematics, one core");
for (const line of await benchKinematics()) say(line);
say("");
say("Check of every scene, one thread; medians of three rounds");
await benchScenes(say);
