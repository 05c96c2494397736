export const viewport = {
  label: "The car in 3D",
  none: {
    title: "No 3D picture on this machine",
    told: "This browser offers no WebGL 2. Verdicts, curves and job cards work as ever; only the picture is missing.",
  },
  lost: {
    title: "The picture was lost",
    told: "The graphics card dropped it. It comes back by itself as soon as the card allows; your work is safe.",
    again: "Draw it again",
  },
} as const;
