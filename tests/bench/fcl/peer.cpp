// The distance queries of the synthetic corner, asked of FCL (fcl::distance over BVHModel<OBBRSS>). Reads bodies and relative
// poses from the file that peer.ts writes, then one job a line from standard input ("MODE CAP_MM") and answers each with one line:
// milliseconds of processor time, then the smallest distance of every pair (the cap where nothing was nearer).
//
// cold: every step from nothing. warm: seeded with the distance that the nearest triangles of the step before have now.
// seeded: only the smallest distance over all steps, seeded with the best so far as well. trees: builds the models anew.
#include <fcl/geometry/bvh/BVH_model.h>
#include <fcl/narrowphase/detail/primitive_shape_algorithm/triangle_distance.h>
#include <fcl/narrowphase/distance.h>

#include <time.h>

#include <algorithm>
#include <cstdint>
#include <cstdio>
#include <fstream>
#include <iostream>
#include <limits>
#include <memory>
#include <stdexcept>
#include <string>
#include <vector>

using Model = fcl::BVHModel<fcl::OBBRSSd>;

struct Mesh {
  std::vector<fcl::Vector3d> points;
  std::vector<fcl::Triangle> triangles;
};

struct Pair {
  uint32_t a, b;
  std::vector<fcl::Transform3d> poses;
};

double processorMs() {
  timespec now;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return 1e3 * static_cast<double>(now.tv_sec) + 1e-6 * static_cast<double>(now.tv_nsec);
}

template <class T>
T read(std::istream& in) {
  T value;
  if (!in.read(reinterpret_cast<char*>(&value), sizeof value)) throw std::runtime_error("the input file ends early");
  return value;
}

Mesh readMesh(std::istream& in) {
  Mesh mesh;
  const auto points = read<uint32_t>(in);
  const auto triangles = read<uint32_t>(in);
  for (uint32_t i = 0; i < points; i++) {
    float p[3];
    for (float& c : p) c = read<float>(in);
    mesh.points.emplace_back(p[0], p[1], p[2]);
  }
  for (uint32_t i = 0; i < triangles; i++) {
    uint32_t t[3];
    for (uint32_t& c : t) c = read<uint32_t>(in);
    mesh.triangles.emplace_back(t[0], t[1], t[2]);
  }
  return mesh;
}

Pair readPair(std::istream& in) {
  Pair pair;
  pair.a = read<uint32_t>(in);
  pair.b = read<uint32_t>(in);
  const auto steps = read<uint32_t>(in);
  for (uint32_t i = 0; i < steps; i++) {
    fcl::Transform3d pose = fcl::Transform3d::Identity();
    for (int row = 0; row < 3; row++)
      for (int column = 0; column < 4; column++) pose.matrix()(row, column) = read<double>(in);
    pair.poses.push_back(pose);
  }
  return pair;
}

std::vector<std::unique_ptr<Model>> build(const std::vector<Mesh>& meshes) {
  std::vector<std::unique_ptr<Model>> models;
  for (const Mesh& mesh : meshes) {
    models.push_back(std::make_unique<Model>());
    models.back()->beginModel();
    models.back()->addSubModel(mesh.points, mesh.triangles);
    models.back()->endModel();
  }
  return models;
}

double triangleDistance(const Model& a, int i, const Model& b, int j, const fcl::Transform3d& pose) {
  const fcl::Triangle& s = a.tri_indices[i];
  const fcl::Triangle& t = b.tri_indices[j];
  fcl::Vector3d nearestA, nearestB;
  return fcl::detail::TriangleDistance<double>::triDistance(
      a.vertices[s[0]], a.vertices[s[1]], a.vertices[s[2]], b.vertices[t[0]], b.vertices[t[1]], b.vertices[t[2]], pose,
      nearestA, nearestB);
}

double leastOf(const Model& a, const Model& b, const Pair& pair, bool warm, bool seeded, double cap) {
  const fcl::Transform3d here = fcl::Transform3d::Identity();
  const fcl::DistanceRequestd request(false);
  double least = cap;
  int i = -1, j = -1;
  for (const fcl::Transform3d& pose : pair.poses) {
    double seed = seeded ? least : cap;
    if ((warm || seeded) && i >= 0) seed = std::min(seed, triangleDistance(a, i, b, j, pose));
    fcl::DistanceResultd result(seed);
    fcl::distance(&a, here, &b, pose, request, result);
    if (result.b1 >= 0) {
      i = static_cast<int>(result.b1);
      j = static_cast<int>(result.b2);
    }
    least = std::min(least, result.min_distance);
  }
  return least;
}

int main(int count, char** arguments) {
  try {
    if (count != 2) throw std::runtime_error("one input file is wanted");
    std::ifstream in(arguments[1], std::ios::binary);
    std::vector<Mesh> meshes(read<uint32_t>(in));
    for (Mesh& mesh : meshes) mesh = readMesh(in);
    std::vector<Pair> pairs(read<uint32_t>(in));
    for (Pair& pair : pairs) pair = readPair(in);
    auto models = build(meshes);
    std::string mode;
    double cap;
    while (std::cin >> mode >> cap) {
      if (cap <= 0) cap = std::numeric_limits<double>::max();
      std::vector<double> least;
      const double start = processorMs();
      if (mode == "trees") {
        models = build(meshes);
      } else {
        for (const Pair& pair : pairs)
          least.push_back(leastOf(*models[pair.a], *models[pair.b], pair, mode == "warm", mode == "seeded", cap));
      }
      std::printf("%.6f", processorMs() - start);
      for (double value : least) std::printf(" %.9g", value);
      std::printf("\n");
      std::fflush(stdout);
    }
    return 0;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
}
