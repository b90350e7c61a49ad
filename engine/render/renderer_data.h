// What a renderer keeps; shared by its two source files only.
#pragma once

#include "engine/render/baked_parts.h"
#include "engine/render/gbuffer.h"
#include "engine/render/indirect_pass.h"
#include "engine/render/layers.h"
#include "engine/render/light_pass.h"
#include "engine/render/renderer.h"
#include "engine/render/work_light.h"

namespace keystead {

struct Renderer::Data {
    std::string problem;
    RenderOptions options;
    Program gbuffer_program, remix_program, display_program;
    LightPass pass;
    IndirectPass indirect;
    std::shared_ptr<const IndirectLight> baked;
    std::vector<BakedName> baked_names; ///< one a part of the bake
    std::shared_ptr<const Studio> studio;
    View view;
    int width_px = 0, height_px = 0;
    Geometry geometry;
    GBufferCache gbuffers;
    LensBuffers lenses;
    Layers layers;
    /// Samples a layer: one a light, then the work light's, then as many of indirect light.
    std::vector<int> counts;
    Emitter work_light;
    std::vector<glm::vec3> receivers_m; ///< spread over what is visible
    VertexArray nothing;                ///< full-screen passes read no vertices

    bool ready() const { return problem.empty() && studio && width_px > 0 && height_px > 0; }
    std::size_t lights() const { return studio ? studio->emitters.size() : 0; }
    void load_program(Program& program, const char* vertex, const char* fragment);
    void restart(std::size_t layer);
    void restart_all();
    void forget_picture();
    const LensBuffer* lens_of(int set);
    void fit_layers();
    void see_receivers();
    void take_indirect();
    bool indirect_wanted() const;
    void add_indirect_set();
    void drop_indirect();
    LayerWeight indirect_weight(std::size_t light, const LayerWeight& direct) const;
    bool wanted(std::size_t layer, int target) const;
    void add_samples(std::size_t layer, int most);
    LayerWeight weight_of(std::size_t light, bool with_shutter) const;
    std::vector<LayerWeight> measured_weights() const;
};

} // namespace keystead
