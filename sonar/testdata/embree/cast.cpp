// Casts rays onto a floor by Embree (Intel, Apache-2.0; a general-purpose ray tracer, version 3) in
// packets of 16 on one thread. sonar/embree_test.go tells what is written to it and read from it.
//
// c++ -O3 -march=native cast.cpp -lembree3
#include <embree3/rtcore.h>

#include <chrono>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <limits>
#include <vector>

template <typename T> static void get(T *to, size_t n) {
  if (fread(to, sizeof(T), n, stdin) != n) {
    fprintf(stderr, "the input ends early\n");
    exit(1);
  }
}

// The rays set out from the origin.
struct Rays {
  std::vector<float> x, y, z, far;
  explicit Rays(size_t n) : x(n), y(n), z(n), far(n) {}
};

static void cast(RTCScene scene, Rays &r) {
  alignas(64) int valid[16];
  for (int &v : valid) v = -1;
  for (size_t at = 0; at < r.x.size(); at += 16) {
    alignas(64) RTCRayHit16 h;
    for (int i = 0; i < 16; i++) {
      h.ray.org_x[i] = h.ray.org_y[i] = h.ray.org_z[i] = 0;
      h.ray.dir_x[i] = r.x[at + i];
      h.ray.dir_y[i] = r.y[at + i];
      h.ray.dir_z[i] = r.z[at + i];
      h.ray.tnear[i] = 0;
      h.ray.tfar[i] = std::numeric_limits<float>::infinity();
      h.ray.time[i] = 0;
      h.ray.mask[i] = -1;
      h.ray.flags[i] = 0;
      h.hit.geomID[i] = RTC_INVALID_GEOMETRY_ID;
    }
    RTCIntersectContext context;
    rtcInitIntersectContext(&context);
    context.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
    rtcIntersect16(valid, scene, &context, &h);
    for (int i = 0; i < 16; i++) r.far[at + i] = h.ray.tfar[i];
  }
}

int main() {
  int32_t nx, ny;
  float x0, y0, step;
  get(&nx, 1), get(&ny, 1);
  get(&x0, 1), get(&y0, 1), get(&step, 1);
  std::vector<float> heights(size_t(nx) * ny);
  get(heights.data(), heights.size());
  int32_t n;
  get(&n, 1);
  Rays rays(n);
  for (int i = 0; i < n; i++) get(&rays.x[i], 1), get(&rays.y[i], 1), get(&rays.z[i], 1);

  RTCDevice device = rtcNewDevice("threads=1");
  RTCScene scene = rtcNewScene(device);
  rtcSetSceneBuildQuality(scene, RTC_BUILD_QUALITY_HIGH);
  RTCGeometry floor = rtcNewGeometry(device, RTC_GEOMETRY_TYPE_TRIANGLE);
  auto *v = (float *)rtcSetNewGeometryBuffer(floor, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3, 12, heights.size());
  for (int j = 0; j < ny; j++)
    for (int i = 0; i < nx; i++) {
      *v++ = x0 + i * step;
      *v++ = y0 + j * step;
      *v++ = heights[size_t(j) * nx + i];
    }
  auto *t = (uint32_t *)rtcSetNewGeometryBuffer(floor, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3, 12, size_t(2) * (nx - 1) * (ny - 1));
  for (int j = 0; j + 1 < ny; j++)
    for (int i = 0; i + 1 < nx; i++) {
      uint32_t a = j * nx + i, b = a + 1, c = a + nx, d = c + 1;
      for (uint32_t k : {a, b, c, b, d, c}) *t++ = k;
    }
  rtcCommitGeometry(floor);
  rtcAttachGeometry(scene, floor);
  rtcCommitScene(scene);

  cast(scene, rays);
  fwrite(rays.far.data(), sizeof(float), n, stdout);
  fflush(stdout);
  int32_t rounds; // nanoseconds a ray over so many, as often as asked for
  while (fread(&rounds, sizeof rounds, 1, stdin) == 1) {
    auto begun = std::chrono::steady_clock::now();
    for (int i = 0; i < rounds; i++) cast(scene, rays);
    std::chrono::duration<double, std::nano> took = std::chrono::steady_clock::now() - begun;
    double each = took.count() / rounds / n;
    fwrite(&each, sizeof each, 1, stdout);
    fflush(stdout);
  }
}
