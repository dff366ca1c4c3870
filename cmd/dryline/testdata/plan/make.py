"""Draws the inlet of the planning tests: an invented place, 1600 x 2000 m in cells of 5 m in UTM 25N,
heights in metres over low water. Then:
  gdal_translate -q -a_srs EPSG:32625 -ot Float32 -co TILED=YES -co BLOCKXSIZE=128 -co BLOCKYSIZE=128 -co COMPRESS=DEFLATE -co PREDICTOR=3 inlet.asc inlet.tif
"""
import math
nx, ny, e0, n0 = 320, 400, 469400, 5227000
with open("inlet.asc", "w") as f:
    f.write(f"ncols {nx}\nnrows {ny}\nxllcorner {e0}\nyllcorner {n0}\ncellsize 5\nNODATA_value -9999\n")
    for j in range(ny - 1, -1, -1):
        row = []
        for i in range(nx):
            x, y = 5 * i + 2.5, 5 * j + 2.5
            mid = 800 + 140 * math.sin(y / 620)           # the channel winds
            d = abs(x - mid)
            z = -24 + 10 * (d / 520) ** 2 - 3 * (y / 2000)  # deeper to the north
            z += 0.6 * math.sin(x / 71 + y / 133) + 0.3 * math.sin(x / 33 - y / 57)
            z += 17 * math.exp(-(((x - 1040) / 60) ** 2 + ((y - 1250) / 60) ** 2))  # a rock
            if d > 640 + 40 * math.sin(y / 210):
                z = max(z, -9 + (d - 640) / 22)             # banks, then land
            hole = (x - 640) ** 2 + (y - 700) ** 2 < 18 ** 2 or x < 40 and y > 1500
            row.append("-9999" if hole else f"{z:.2f}")
        f.write(" ".join(row) + "\n")
