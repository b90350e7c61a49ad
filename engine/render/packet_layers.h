// The lights' layers without a graphics card: sums of samples in blocks of sixteen pixels, remixed
// and developed there. Same contract as layers.h.
#pragma once

#include "engine/render/display.h"
#include "engine/render/filler.h"
#include "sim/transport/picture_size.h"

#include <cstdint>
#include <glm/glm.hpp>
#include <memory>
#include <span>
#include <vector>

namespace keystead {

/// Floats on a 64-byte boundary, zero at first. Memory of its own from the system: a picture that
/// goes gives it back.
class LaneMemory {
public:
    LaneMemory() = default;
    explicit LaneMemory(std::size_t floats);
    std::span<float> all() { return {data_.get(), size_}; }
    std::span<const float> all() const { return {data_.get(), size_}; }
    bool empty() const { return size_ == 0; }
    std::size_t bytes() const { return size_ * sizeof(float); }
    void clear();

private:
    struct Release {
        void operator()(float* memory) const;
    };
    std::unique_ptr<float[], Release> data_; // NOLINT: aligned, sized once
    std::size_t size_ = 0;
};

struct PacketLayers {
    PictureSize size;
    std::vector<LaneMemory> sums; ///< one a layer; empty until something is added
    /// By layer: what the memory holds does not count. Clearing it would cost more than the first
    /// sample's writing over it.
    std::vector<char> stale;
    /// Changes with a layer's content.
    std::vector<std::uint64_t> versions;
};

PacketLayers make_packet_layers(PictureSize size, std::size_t count);
/// A layer to add to.
std::span<float> writable(PacketLayers& layers, std::size_t layer);
/// A layer to add to, or where it is `fresh` to write over.
struct LayerMemory {
    std::span<float> sums;
    bool fresh = false;
};
LayerMemory to_fill(PacketLayers& layers, std::size_t layer);
void clear_layer(PacketLayers& layers, std::size_t layer);

/// A layer's factor in the sum; `group`: layers that change together (a light's direct and indirect
/// one), so that dragging one light leaves the sum of the others alone.
struct PacketWeight {
    std::size_t layer = 0, group = 0;
    glm::vec3 factor{0.0F};
    bool operator==(const PacketWeight&) const = default;
};

/// Remembers the sum of all layers but those of the group that changed last.
class PacketRemix {
public:
    /// The display codes of the weighted sum into `shown`; rows from the top, or from the bottom as
    /// OpenGL keeps pictures.
    void develop(const PacketLayers& layers, std::span<const PacketWeight> weights,
                 const Display& display, bool bottom_first, RgbaImage& shown);
    /// The weighted sum itself.
    static LinearImage linear(const PacketLayers& layers, std::span<const PacketWeight> weights);

    /// Bytes that are kept for the sum of the others.
    std::size_t bytes() const { return others_.bytes(); }

private:
    struct Entry {
        PacketWeight weight;
        std::uint64_t version = 0;
        bool operator==(const Entry&) const = default;
    };
    std::vector<Entry> last_;
    LaneMemory others_;
    PictureSize others_size_;
    std::size_t live_group_ = 0; ///< what `others_` leaves out
    bool others_valid_ = false;

    /// The one group in which `now` differs from the last call, or nothing.
    bool one_group_changed(std::span<const Entry> now, std::size_t& group) const;
};

} // namespace keystead
