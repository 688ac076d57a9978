# The same pair through OpenCV (Debian: python3-opencv), in its usual way for it: SIFT features at half size, matched,
# and a similarity fitted by RANSAC. Circles by Hough with polar unrolling were tried first and missed the turn by 23 degrees.
import math
import sys
import time

import cv2
import numpy as np

TURN, SCALE = 71.3, 0.83
cv2.setNumThreads(1)
sift = cv2.SIFT_create(1500)
matcher = cv2.BFMatcher()


def align(a, b):
    half = [cv2.resize(one, None, fx=0.5, fy=0.5, interpolation=cv2.INTER_AREA) for one in (a, b)]
    (ka, da), (kb, db) = (sift.detectAndCompute(one, None) for one in half)
    good = [m for m, n in matcher.knnMatch(da, db, k=2) if m.distance < 0.75 * n.distance]
    warp, _ = cv2.estimateAffinePartial2D(np.float32([ka[m.queryIdx].pt for m in good]),
                                          np.float32([kb[m.trainIdx].pt for m in good]), ransacReprojThreshold=2)
    return math.degrees(math.atan2(warp[1, 0], warp[0, 0])), math.hypot(warp[0, 0], warp[1, 0])


first, second = (cv2.imread(sys.argv[1] + name, cv2.IMREAD_GRAYSCALE) for name in ('/first.png', '/second.png'))
times = []
for _ in range(15):
    start = time.perf_counter()
    turn, scale = align(first, second)
    times.append((time.perf_counter() - start) * 1000)
print('[opencv] %.0f ms; off by %.3f degrees and %.3f %%' % (sorted(times)[len(times) // 2], abs(turn - TURN), 100 * abs(scale / SCALE - 1)))
