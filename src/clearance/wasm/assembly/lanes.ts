/** Sum of four lanes. */
@inline
export function sum(v: v128): f32 {
  const half = f32x4.add(v, v128.shuffle<f32>(v, v, 2, 3, 0, 1));
  return f32x4.extract_lane(half, 0) + f32x4.extract_lane(half, 1);
}

@inline
export function largest(v: v128): f32 {
  const half = f32x4.pmax(v, v128.shuffle<f32>(v, v, 2, 3, 0, 1));
  return max(f32x4.extract_lane(half, 0), f32x4.extract_lane(half, 1));
}

@inline
export function least(v: v128): f32 {
  const half = f32x4.pmin(v, v128.shuffle<f32>(v, v, 2, 3, 0, 1));
  return min(f32x4.extract_lane(half, 0), f32x4.extract_lane(half, 1));
}

/** The sums of p, q and r as the first three lanes; the fourth lane of each must be 0, and is 0 in the result. */
@inline
export function sums(p: v128, q: v128, r: v128): v128 {
  const pq = f32x4.add(v128.shuffle<f32>(p, q, 0, 4, 1, 5), v128.shuffle<f32>(p, q, 2, 6, 3, 7));
  const rr = f32x4.add(r, v128.shuffle<f32>(r, r, 2, 3, 3, 3));
  // pq: p02 q02 p13 q13; rr: r02 r13 r2 0
  return f32x4.add(v128.shuffle<f32>(pq, rr, 0, 1, 4, 7), v128.shuffle<f32>(pq, rr, 2, 3, 5, 7));
}

@inline
export function everyX(v: v128): v128 {
  return v128.shuffle<f32>(v, v, 0, 0, 0, 0);
}

@inline
export function everyY(v: v128): v128 {
  return v128.shuffle<f32>(v, v, 1, 1, 1, 1);
}

@inline
export function everyZ(v: v128): v128 {
  return v128.shuffle<f32>(v, v, 2, 2, 2, 2);
}

/** x·(first lane of v) + y·(second) + z·(third). */
@inline
export function combine(v: v128, x: v128, y: v128, z: v128): v128 {
  return f32x4.add(f32x4.add(f32x4.mul(everyX(v), x), f32x4.mul(everyY(v), y)), f32x4.mul(everyZ(v), z));
}

@inline
export function vector(x: f64, y: f64, z: f64): v128 {
  return f32x4.replace_lane(
    f32x4.replace_lane(f32x4.replace_lane(f32x4.splat(0), 0, <f32>x), 1, <f32>y),
    2,
    <f32>z,
  );
}
