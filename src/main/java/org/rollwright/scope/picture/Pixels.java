package org.rollwright.scope.picture;

import boofcv.alg.filter.blur.GBlurImageOps;
import boofcv.struct.image.GrayF32;
import java.awt.image.BufferedImage;
import java.awt.image.DataBufferInt;

/// Grey pictures and what is done to all of them. Values run from 0 (black) to 255.
final class Pixels {
    private Pixels() {}

    /// Brightness of a picture, shrunk by averaging so that neither side is longer than asked.
    ///
    /// @param picture of type INT_RGB
    /// @param longest of both sides of the result, in pixels
    static Shrunk grey(BufferedImage picture, int longest) {
        int width = picture.getWidth();
        int height = picture.getHeight();
        int step = Math.max(1, (int) Math.ceil(Math.max(width, height) / (double) longest));
        int w = Math.max(1, width / step);
        int h = Math.max(1, height / step);
        int[] rgb = ((DataBufferInt) picture.getRaster().getDataBuffer()).getData();
        GrayF32 grey = new GrayF32(w, h);
        float share = 1f / (step * step * 1000);
        for (int y = 0; y < h; y++) {
            for (int x = 0; x < w; x++) {
                int sum = 0;
                for (int dy = 0; dy < step; dy++) {
                    int from = (y * step + dy) * width + x * step;
                    for (int at = from; at < from + step; at++) {
                        int colour = rgb[at];
                        // weights of ITU-R BT.601
                        sum += 299 * (colour >> 16 & 255) + 587 * (colour >> 8 & 255) + 114 * (colour & 255);
                    }
                }
                grey.data[y * w + x] = sum * share;
            }
        }
        return new Shrunk(grey, step);
    }

    /// A grey picture and how many pixels of the original one of its sides stands for.
    record Shrunk(GrayF32 grey, int step) {
        /// A point of this picture in pixels of the original.
        double toOriginal(double at) {
            return (at + 0.5) * step - 0.5;
        }

        double fromOriginal(double at) {
            return (at + 0.5) / step - 0.5;
        }
    }

    static GrayF32 blurred(GrayF32 picture, double sigma) {
        return GBlurImageOps.gaussian(picture, null, sigma, -1, null);
    }

    /// Value between pixels; the nearest edge pixel outside.
    static float at(GrayF32 picture, double x, double y) {
        int w = picture.width;
        int h = picture.height;
        double cx = x < 0 ? 0 : x > w - 1 ? w - 1 : x;
        double cy = y < 0 ? 0 : y > h - 1 ? h - 1 : y;
        int ix = Math.min((int) cx, Math.max(0, w - 2));
        int iy = Math.min((int) cy, Math.max(0, h - 2));
        float fx = (float) (cx - ix);
        float fy = (float) (cy - iy);
        int index = iy * w + ix;
        int right = w > 1 ? 1 : 0;
        int below = h > 1 ? w : 0;
        float[] d = picture.data;
        float top = d[index] + fx * (d[index + right] - d[index]);
        float low = d[index + below] + fx * (d[index + below + right] - d[index + below]);
        return top + fy * (low - top);
    }

    /// Relief made comparable across lamps and cameras: slow changes of light taken out, contrast evened.
    static GrayF32 relief(GrayF32 picture, double sigma) {
        GrayF32 mean = blurred(picture, sigma);
        GrayF32 out = new GrayF32(picture.width, picture.height);
        for (int i = 0; i < out.data.length; i++) {
            out.data[i] = picture.data[i] - mean.data[i];
        }
        GrayF32 square = new GrayF32(picture.width, picture.height);
        for (int i = 0; i < out.data.length; i++) {
            square.data[i] = out.data[i] * out.data[i];
        }
        GrayF32 spread = blurred(square, sigma);
        for (int i = 0; i < out.data.length; i++) {
            out.data[i] /= (float) Math.sqrt(spread.data[i] + 4);
        }
        return out;
    }
}
