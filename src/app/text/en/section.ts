export const section = {
  label: "{{a}} and {{b}}, cut through where they are closest",
} as const;
