#include "sim/transport/reference.h"

#include "sim/transport/reference_path.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <mutex>
#include <tbb/parallel_for.h>

namespace keystead {

namespace {

/// Mean and its standard error from independent batches, some of which may hold one sample less.
void put_pixel(const std::array<glm::vec3, reference_batches>& sums, int samples, glm::vec3& mean,
               glm::vec3& error) {
    const int batches = std::min(samples, reference_batches);
    glm::dvec3 total(0.0);
    for (int b = 0; b < batches; ++b) total += glm::dvec3(sums[static_cast<std::size_t>(b)]);
    const glm::dvec3 average = total / static_cast<double>(samples);
    glm::dvec3 squares(0.0);
    for (int b = 0; b < batches; ++b) {
        const int count = samples / batches + (b < samples % batches ? 1 : 0);
        const glm::dvec3 off =
            glm::dvec3(sums[static_cast<std::size_t>(b)]) - average * static_cast<double>(count);
        squares += off * off;
    }
    mean = glm::vec3(average);
    const double scale = batches > 1 ? static_cast<double>(batches) / (batches - 1) : 0.0;
    error = glm::vec3(glm::sqrt(squares * scale) / static_cast<double>(samples));
}

} // namespace

ReferencePicture trace_reference(const Studio& studio, const View& view,
                                 const ReferenceOptions& options) {
    const reference::World world = reference::make_world(studio, view, options);
    ReferencePicture picture;
    picture.width_px = options.width_px;
    picture.height_px = options.height_px;
    picture.samples = std::max(1, options.samples);
    const std::size_t count =
        static_cast<std::size_t>(picture.width_px) * static_cast<std::size_t>(picture.height_px);
    picture.radiance.resize(count);
    picture.standard_error.resize(count);
    constexpr int side = reference::block_side;
    const int across = (picture.width_px + side - 1) / side;
    const int blocks = across * ((picture.height_px + side - 1) / side);
    std::atomic<bool> stopped{false};
    std::mutex telling;
    int done = 0; // guarded by `telling`
    tbb::parallel_for(0, blocks, [&](int block) {
        if (stopped) return;
        const int left = block % across * side, top = block / across * side;
        reference::BlockSums sums;
        reference::trace_block(world, left, top, sums);
        for (int i = 0; i < reference::block_pixels; ++i) {
            const int x = left + i % side, y = top + i / side;
            if (x >= picture.width_px || y >= picture.height_px) continue;
            const auto at =
                static_cast<std::size_t>(y) * static_cast<std::size_t>(picture.width_px) +
                static_cast<std::size_t>(x);
            put_pixel(sums.pixels[static_cast<std::size_t>(i)], picture.samples,
                      picture.radiance[at], picture.standard_error[at]);
        }
        if (!options.progress) return;
        const std::lock_guard lock(telling);
        if (++done % 16 == 0 && !options.progress(static_cast<double>(done) / blocks))
            stopped = true;
    });
    picture.complete = !stopped;
    if (picture.complete && options.progress) options.progress(1.0);
    return picture;
}

std::vector<ReferenceMean> trace_squares(const Studio& studio, const View& view,
                                         const ReferenceOptions& options,
                                         std::span<const ReferenceSquare> squares) {
    static_assert(reference_square_px == reference::block_side);
    const reference::World world = reference::make_world(studio, view, options);
    std::vector<ReferenceMean> means(squares.size());
    tbb::parallel_for(std::size_t{0}, squares.size(), [&](std::size_t n) {
        reference::BlockSums sums;
        reference::trace_block(world, squares[n].left_px, squares[n].top_px, sums);
        glm::dvec3 total(0.0), squared(0.0);
        for (const auto& pixel : sums.pixels) {
            glm::vec3 mean, error;
            put_pixel(pixel, std::max(1, options.samples), mean, error);
            total += glm::dvec3(mean);
            squared += glm::dvec3(error) * glm::dvec3(error);
        }
        constexpr double count = reference::block_pixels;
        means[n] = {glm::vec3(total / count), glm::vec3(glm::sqrt(squared) / count)};
    });
    return means;
}

} // namespace keystead
