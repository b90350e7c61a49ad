#include "engine/render/glare.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <tbb/parallel_for.h>

namespace keystead {

namespace {

constexpr float scattered = 0.02F;
struct Bell {
    double sigma_of_width;
    float share;
};
constexpr std::array<Bell, 3> bells{{{0.006, 0.5F}, {0.022, 0.3F}, {0.08, 0.2F}}};

/// Place in 0..n-1 of a place outside: mirrored at the edges, which keeps the sum of a mean.
int mirrored(int i, int n) {
    const int period = 2 * n;
    const int j = ((i % period) + period) % period;
    return j < n ? j : period - 1 - j;
}

/// Mean over `radius` neighbours on both sides of each of `n` values, `stride` apart.
void box_mean(const glm::vec3* from, glm::vec3* to, int n, std::ptrdiff_t stride, int radius) {
    glm::dvec3 sum(0.0);
    for (int i = -radius; i <= radius; ++i) sum += glm::dvec3(from[mirrored(i, n) * stride]);
    const double share = 1.0 / (2 * radius + 1);
    for (int i = 0; i < n; ++i) {
        to[i * stride] = glm::vec3(sum * share);
        sum += glm::dvec3(from[mirrored(i + radius + 1, n) * stride]) -
               glm::dvec3(from[mirrored(i - radius, n) * stride]);
    }
}

/// Three boxes in a row come close to a bell: their variances, (2r+1)^2/12 - 1/12 each, add up.
std::vector<glm::vec3> bell_mean(const LinearImage& image, double sigma_px) {
    const int radius = std::max(
        1, static_cast<int>(std::lround(0.5 * (std::sqrt(4.0 * sigma_px * sigma_px + 1.0) - 1.0))));
    std::vector<glm::vec3> now = image.pixels, next = now;
    const auto width = static_cast<std::ptrdiff_t>(image.width);
    for (int pass = 0; pass < 3; ++pass) {
        tbb::parallel_for(0, image.height, [&](int y) {
            box_mean(now.data() + y * width, next.data() + y * width, image.width, 1, radius);
        });
        tbb::parallel_for(0, image.width, [&](int x) {
            box_mean(next.data() + x, now.data() + x, image.height, width, radius);
        });
    }
    return now;
}

} // namespace

void add_glare(LinearImage& picture) {
    if (picture.pixels.empty()) return;
    std::vector<glm::vec3> sum(picture.pixels.size());
    for (std::size_t i = 0; i < sum.size(); ++i) sum[i] = (1.0F - scattered) * picture.pixels[i];
    for (const Bell& bell : bells) {
        const std::vector<glm::vec3> spread =
            bell_mean(picture, bell.sigma_of_width * picture.width);
        for (std::size_t i = 0; i < sum.size(); ++i) sum[i] += scattered * bell.share * spread[i];
    }
    picture.pixels = std::move(sum);
}

} // namespace keystead
