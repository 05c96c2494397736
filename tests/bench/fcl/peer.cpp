// The distance queries of the synthetic corner, asked of FCL (fcl::distance over BVHModel<OBBRSS>). Reads bodies and relative
// poses from the file that peer.ts writes, then one job a line from standard input ("MODE CAP_MM PAIRS") and answers each with
// one line: milliseconds of processor time, then the smallest distance of every pair (the cap where nothing was nearer).
//
// cold: every step from nothing. warm: seeded with the distance that the nearest triangles of the step before have now.
// seeded: only the smallest distance over all steps, seeded with the best so far as well. trees: builds the models anew.
// places: the pairs are those of one place after another, so many a place. As seeded, but a pair starts from its nearest
// triangles of the place before, and the best so far is that of the place: its first pair is the worst of the place before, and
// the smallest distance of every place is told. places-pairs: the same with a best of its own for each pair.
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

double leastOf(const Model& a, const Model& b, const Pair& pair, bool warm, bool seeded, double cap, int& i, int& j) {
  const fcl::Transform3d here = fcl::Transform3d::Identity();
  const fcl::DistanceRequestd request(false);
  double least = cap;
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
    if (seeded && least <= 0) break;
  }
  return least;
}

std::vector<double> leastOfPlaces(const std::vector<std::unique_ptr<Model>>& models, const std::vector<Pair>& pairs,
                                  size_t perPlace, bool shared, double cap) {
  std::vector<double> told;
  std::vector<std::pair<int, int>> nearest(perPlace, {-1, -1});
  size_t worst = 0;
  for (size_t first = 0; first + perPlace <= pairs.size(); first += perPlace) {
    double least = cap;
    const size_t start = worst;
    for (size_t k = 0; k < perPlace; k++) {
      const size_t index = shared ? (k == 0 ? start : k <= start ? k - 1 : k) : k;
      const Pair& pair = pairs[first + index];
      auto& [i, j] = nearest[index];
      const double found = leastOf(*models[pair.a], *models[pair.b], pair, true, true, shared ? least : cap, i, j);
      if (!shared) told.push_back(found);
      if (found >= least) continue;
      least = found;
      worst = index;
      if (shared && least <= 0) break;
    }
    if (shared) told.push_back(least);
  }
  return told;
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
    size_t perPlace;
    while (std::cin >> mode >> cap >> perPlace) {
      if (cap <= 0) cap = std::numeric_limits<double>::max();
      std::vector<double> least;
      const double start = processorMs();
      if (mode == "trees") {
        models = build(meshes);
      } else if (mode == "places" || mode == "places-pairs") {
        least = leastOfPlaces(models, pairs, perPlace, mode == "places", cap);
      } else {
        for (const Pair& pair : pairs) {
          int i = -1, j = -1;
          least.push_back(leastOf(*models[pair.a], *models[pair.b], pair, mode == "warm", mode == "seeded", cap, i, j));
        }
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
