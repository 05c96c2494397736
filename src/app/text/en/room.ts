export const room = {
  caution: "Geometry only, rigid parts: prove it by hand with the spring out, on stands.",
} as const;
