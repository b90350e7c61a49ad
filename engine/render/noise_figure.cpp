#include "engine/render/noise_figure.h"

#include <bit>
#include <cmath>

namespace keystead {

namespace {

/// Every so many pixels across and down is enough for a mean.
constexpr int step_px = 3;
/// Difference between n and n/2 samples over the error at n.
constexpr double difference_over_error = 1.6;

std::vector<glm::vec3> some_pixels(const LinearImage& image) {
    std::vector<glm::vec3> some;
    for (int y = step_px / 2; y < image.height; y += step_px)
        for (int x = step_px / 2; x < image.width; x += step_px)
            some.push_back(
                image.pixels[static_cast<std::size_t>(y) * static_cast<std::size_t>(image.width) +
                             static_cast<std::size_t>(x)]);
    return some;
}

} // namespace

bool NoiseFigure::look(Filler& filler, std::uint64_t same_light) {
    const int samples = filler.samples();
    // Another power or more bounce: as far off as before, but no longer comparable.
    if (same_light != light_) before_.clear();
    light_ = same_light;
    if (samples < samples_) {
        const bool had = percent_.has_value();
        before_.clear();
        percent_.reset();
        samples_ = 0;
        if (had) return true;
    }
    if (samples <= samples_ || !std::has_single_bit(static_cast<unsigned>(samples))) return false;
    std::vector<glm::vec3> now = some_pixels(filler.read_linear());
    const bool comparable = samples == 2 * samples_ && now.size() == before_.size();
    if (comparable) {
        double square = 0.0, sum = 0.0;
        for (std::size_t i = 0; i < now.size(); ++i) {
            const glm::dvec3 off = glm::dvec3(now[i]) - glm::dvec3(before_[i]);
            square += glm::dot(off, off);
            sum += static_cast<double>(now[i].r + now[i].g + now[i].b);
        }
        const auto values = static_cast<double>(3 * now.size());
        if (sum > 0.0)
            percent_ = 100.0 * std::sqrt(square / values) / (sum / values) / difference_over_error;
    }
    before_ = std::move(now);
    samples_ = samples;
    return comparable;
}

} // namespace keystead
