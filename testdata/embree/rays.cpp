// Casts rays at a floor of triangles with Embree 3, on one core, in packets of 16, for
// BenchmarkAgainstEmbree of sonar/lanes.
//
// Usage: rays SECONDS FLOOR < RAYS
//
// FLOOR is a file of float64: columns, rows, cell, x0, y0 (metres), then the heights, south
// row first. RAYS are float64: how many, a multiple of 16, then x, y, z and a point each that the
// ray is aimed at, six a ray. It prints the nanoseconds a ray, the triangles, and then where each
// 997th ray met the floor: its number and x, y, z, or its number alone.
#include <embree3/rtcore.h>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <vector>

static std::vector<double> numbers(std::istream &in) {
	std::vector<char> bytes((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
	const double *at = reinterpret_cast<const double *>(bytes.data());
	return std::vector<double>(at, at + bytes.size() / sizeof(double));
}

int main(int argc, char **argv) {
	if (argc != 3) return 2;
	const double seconds = atof(argv[1]);
	std::ifstream file(argv[2], std::ios::binary);
	const std::vector<double> floor = numbers(file), aimed = numbers(std::cin);
	if (floor.size() < 5 || aimed.empty()) return 2;
	const unsigned columns = floor[0], rows = floor[1], triangles = 2 * (columns - 1) * (rows - 1);
	const double cell = floor[2], x0 = floor[3], y0 = floor[4];

	RTCDevice device = rtcNewDevice("threads=1");
	RTCScene scene = rtcNewScene(device);
	rtcSetSceneBuildQuality(scene, RTC_BUILD_QUALITY_HIGH);
	RTCGeometry mesh = rtcNewGeometry(device, RTC_GEOMETRY_TYPE_TRIANGLE);
	float *node = (float *)rtcSetNewGeometryBuffer(mesh, RTC_BUFFER_TYPE_VERTEX, 0, RTC_FORMAT_FLOAT3, 3 * sizeof(float), columns * rows);
	unsigned *corner = (unsigned *)rtcSetNewGeometryBuffer(mesh, RTC_BUFFER_TYPE_INDEX, 0, RTC_FORMAT_UINT3, 3 * sizeof(unsigned), triangles);
	for (unsigned j = 0; j < rows; j++)
		for (unsigned i = 0; i < columns; i++) {
			*node++ = x0 + i * cell, *node++ = y0 + j * cell, *node++ = floor[5 + j * columns + i];
			if (i + 1 == columns || j + 1 == rows) continue;
			const unsigned n = j * columns + i;
			for (unsigned k : {n, n + 1, n + columns, n + 1, n + columns + 1, n + columns}) *corner++ = k;
		}
	rtcCommitGeometry(mesh);
	rtcAttachGeometry(scene, mesh);
	rtcReleaseGeometry(mesh);
	rtcCommitScene(scene);

	const size_t packets = size_t(aimed[0]) / 16;
	std::vector<RTCRayHit16> fresh(packets), cast;
	for (size_t k = 0; k < packets * 16; k++) {
		RTCRayHit16 &r = fresh[k / 16];
		const unsigned l = k % 16;
		const double *from = &aimed[1 + 6 * k];
		const double dx = from[3] - from[0], dy = from[4] - from[1], dz = from[5] - from[2], length = std::sqrt(dx * dx + dy * dy + dz * dz);
		r.ray.org_x[l] = from[0], r.ray.org_y[l] = from[1], r.ray.org_z[l] = from[2];
		r.ray.dir_x[l] = dx / length, r.ray.dir_y[l] = dy / length, r.ray.dir_z[l] = dz / length;
		r.ray.tnear[l] = 0, r.ray.tfar[l] = INFINITY, r.ray.time[l] = 0, r.ray.mask[l] = -1, r.ray.flags[l] = 0;
		r.hit.geomID[l] = r.hit.instID[0][l] = RTC_INVALID_GEOMETRY_ID;
	}
	alignas(64) int valid[16];
	for (int &v : valid) v = -1;
	RTCIntersectContext context;
	rtcInitIntersectContext(&context);
	context.flags = RTC_INTERSECT_CONTEXT_FLAG_COHERENT;
	// Only the casting is timed; packets are set anew between.
	double spent = 0;
	size_t rays = 0;
	for (bool first = true; spent < seconds; first = false) {
		cast = fresh;
		const auto begun = std::chrono::steady_clock::now();
		for (RTCRayHit16 &r : cast) rtcIntersect16(valid, scene, &context, &r);
		if (first) continue;
		spent += std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count();
		rays += packets * 16;
	}
	printf("%.3f %u\n", spent / rays * 1e9, triangles);
	for (size_t k = 0; k < packets * 16; k += 997) {
		const RTCRayHit16 &r = cast[k / 16];
		const unsigned l = k % 16;
		if (r.hit.geomID[l] == RTC_INVALID_GEOMETRY_ID) {
			printf("%zu\n", k);
			continue;
		}
		const float t = r.ray.tfar[l];
		printf("%zu %.4f %.4f %.4f\n", k, r.ray.org_x[l] + t * r.ray.dir_x[l], r.ray.org_y[l] + t * r.ray.dir_y[l], r.ray.org_z[l] + t * r.ray.dir_z[l]);
	}
	rtcReleaseScene(scene);
	rtcReleaseDevice(device);
}
