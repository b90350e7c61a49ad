#include "engine/render/packet_layers.h"

#include "engine/render/develop.h"
#include "engine/render/develop_lanes.h"

#include <algorithm>
#include <cassert>
#include <cstring>
#include <new>
#include <tbb/blocked_range.h>
#include <tbb/parallel_for.h>
#include <utility>

namespace keystead {

namespace {

constexpr std::align_val_t lane_alignment{64};

/// Rows of blocks that one thread takes at a time.
constexpr int rows_at_once = 4;

std::vector<LayerTerm> terms_of(const PacketLayers& layers, std::span<const PacketWeight> weights) {
    std::vector<LayerTerm> terms;
    for (const PacketWeight& weight : weights)
        if (!layers.sums[weight.layer].empty() && layers.stale[weight.layer] == 0)
            terms.push_back({layers.sums[weight.layer].all().data(), weight.factor});
    return terms;
}

template <class Work>
void for_block_rows(PictureSize size, Work work) {
    tbb::parallel_for(tbb::blocked_range<int>(0, size.blocks_down(), rows_at_once),
                      [&](const tbb::blocked_range<int>& rows) { work(rows.begin(), rows.end()); });
}

} // namespace

LaneMemory::LaneMemory(std::size_t floats)
    : data_(new (lane_alignment) float[floats]()) // NOLINT: aligned
    , size_(floats) {}

void LaneMemory::Release::operator()(float* memory) const {
    ::operator delete[](memory, lane_alignment);
}

void LaneMemory::clear() {
    std::fill_n(data_.get(), size_, 0.0F);
}

PacketLayers make_packet_layers(PictureSize size, std::size_t count) {
    PacketLayers made;
    made.size = size;
    made.sums.resize(count);
    made.versions.assign(count, 0);
    made.stale.assign(count, 0);
    return made;
}

LayerMemory to_fill(PacketLayers& layers, std::size_t layer) {
    ++layers.versions[layer];
    LaneMemory& sum = layers.sums[layer];
    if (sum.empty()) sum = LaneMemory(layers.size.blocks() * layer_block_floats);
    return {sum.all(), std::exchange(layers.stale[layer], char{0}) != 0};
}

std::span<float> writable(PacketLayers& layers, std::size_t layer) {
    const LayerMemory memory = to_fill(layers, layer);
    if (memory.fresh) layers.sums[layer].clear();
    return memory.sums;
}

void clear_layer(PacketLayers& layers, std::size_t layer) {
    ++layers.versions[layer];
    layers.stale[layer] = 1;
}

bool PacketRemix::one_group_changed(std::span<const Entry> now, std::size_t& group) const {
    if (now.size() != last_.size()) return false;
    bool any = false;
    for (std::size_t i = 0; i < now.size(); ++i) {
        if (now[i] == last_[i]) continue;
        if (now[i].weight.layer != last_[i].weight.layer) return false;
        if (any && now[i].weight.group != group) return false;
        group = now[i].weight.group;
        any = true;
    }
    return any;
}

void PacketRemix::develop(const PacketLayers& layers, std::span<const PacketWeight> weights,
                          const Display& display, bool bottom_first, RgbaImage& shown) {
    const PictureSize size = layers.size;
    shown.width = size.width_px;
    shown.height = size.height_px;
    shown.pixels.resize(4 * static_cast<std::size_t>(size.width_px) *
                        static_cast<std::size_t>(size.height_px));
    if (display.shown_as != ShownAs::picture || display.clipping) {
        develop_marked(linear(layers, weights), display, bottom_first, shown);
        return;
    }
    std::vector<Entry> now;
    for (const PacketWeight& weight : weights)
        now.push_back({weight, layers.versions[weight.layer]});
    if (!(others_size_ == size)) others_valid_ = false;
    std::size_t group = live_group_;
    const bool one = one_group_changed(now, group);
    const bool same = now == last_;
    // What stayed the same is summed once, when the first change of a row of them is seen.
    const bool reuse = others_valid_ && (same || (one && group == live_group_));
    const bool keep = !reuse && one;
    std::vector<PacketWeight> first, second;
    for (const PacketWeight& weight : weights)
        ((reuse || keep) && weight.group == group ? second : first).push_back(weight);
    std::vector<LayerTerm> fixed = terms_of(layers, first);
    const std::vector<LayerTerm> live = terms_of(layers, second);
    if (keep && (others_.empty() || !(others_size_ == size))) {
        others_ = LaneMemory(size.blocks() * layer_block_floats);
        others_size_ = size;
    }
    if (reuse) fixed = {{others_.all().data(), glm::vec3(1.0F)}};
    const DevelopJob job{size,
                         fixed,
                         live,
                         keep ? others_.all().data() : nullptr,
                         static_cast<float>(display.exposure),
                         static_cast<float>(display.print_contrast),
                         display.balance,
                         display.soft_shoulder,
                         display.dither,
                         bottom_first,
                         shown.pixels.data()};
    for_block_rows(size, [&](int begin, int end) { develop_rows(job, begin, end); });
    if (keep) {
        live_group_ = group;
        others_valid_ = true;
    } else if (!reuse) {
        others_valid_ = false;
    }
    last_ = std::move(now);
}

LinearImage PacketRemix::linear(const PacketLayers& layers, std::span<const PacketWeight> weights) {
    const PictureSize size = layers.size;
    LinearImage image{size.width_px, size.height_px, {}};
    image.pixels.resize(static_cast<std::size_t>(size.width_px) *
                        static_cast<std::size_t>(size.height_px));
    const std::vector<LayerTerm> terms = terms_of(layers, weights);
    for_block_rows(
        size, [&](int begin, int end) { sum_rows(size, terms, begin, end, image.pixels.data()); });
    return image;
}

} // namespace keystead
