// The filler for machines without a graphics card: rays in packets of sixteen on the processor.
#pragma once

#include "engine/render/filler.h"

namespace keystead {

/// Needs no OpenGL. Works on all processors that TBB is allowed.
class PacketFiller final : public Filler {
public:
    PacketFiller();
    ~PacketFiller() override;

    const std::string& problem() const override;
    std::string device() const override;
    void set_options(const RenderOptions& options) override;
    void show(std::shared_ptr<const Studio> studio) override;
    void look(const View& view, int width_px, int height_px) override;
    void set_indirect(std::shared_ptr<const IndirectLight> light, const Studio& of) override;
    bool refine(int target_samples, int per_light = 1) override;
    int samples() const override;
    int samples_of(int light) const override;
    RgbaImage read_display(const Display& display) override;
    LinearImage read_linear(int only_light = -1) override;

    /// As read_display, into memory that is there already; rows from the bottom for OpenGL.
    void develop(const Display& display, bool bottom_first, RgbaImage& shown);

    /// Memory of layers and of what pixels see.
    std::size_t bytes() const;

private:
    struct Data;
    std::unique_ptr<Data> data_;
};

} // namespace keystead
