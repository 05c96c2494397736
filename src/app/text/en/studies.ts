export const studies = {
  name: "Studies",
  label: "Study",
  names: {
    room: "Room for a point",
  },
} as const;
