#include "engine/render/renderer.h"

#include "engine/gl/binding_guard.h"
#include "engine/gl/load.h"
#include "engine/render/renderer_data.h"
#include "engine/render/restart.h"
#include "engine/render/scene_changes.h"

#include <algorithm>
#include <bit>
#include <glad/gl.h>

namespace keystead {

void Renderer::Data::load_program(Program& program, const char* vertex, const char* fragment) {
    Result<Program> loaded = Program::load(vertex, fragment);
    if (loaded)
        program = std::move(loaded).value();
    else if (problem.empty())
        problem = loaded.problem().message();
}

void Renderer::Data::restart(std::size_t layer) {
    if (layer >= counts.size() || counts[layer] == 0) return;
    clear_layer(layers, static_cast<int>(layer));
    counts[layer] = 0;
}

void Renderer::Data::restart_all() {
    for (std::size_t i = 0; i < counts.size(); ++i) restart(i);
}

/// What the view sees first, and what the sitter's glasses mirror.
void Renderer::Data::forget_picture() {
    forget(gbuffers);
    forget(lenses);
}

const LensBuffer* Renderer::Data::lens_of(int set) {
    return lenses_at(lenses, set, *studio, geometry, view, width_px, height_px);
}

/// Makes room for direct and indirect layers of each light and the work light; new pictures start
/// empty.
void Renderer::Data::fit_layers() {
    const std::size_t needed = 2 * (lights() + 1);
    if (layers.width_px == width_px && layers.height_px == height_px &&
        layers.targets.size() == needed)
        return;
    layers = make_layers(width_px, height_px, static_cast<int>(needed));
    counts.assign(lights() + 1, 0);
    indirect.sets_done = 0;
}

void Renderer::Data::see_receivers() {
    if (!receivers_m.empty()) return;
    const GBuffer& buffer = gbuffer_of(gbuffers, 0, geometry, view, gbuffer_program);
    receivers_m = spread_positions(gbuffers, buffer, 128, 80);
}

/// Finds each drawn part in the bake and hands its values over.
void Renderer::Data::take_indirect() {
    drop_indirect();
    indirect.values.clear();
    indirect.emitters = 0;
    if (!baked || baked->emitters != lights() + 1) return;
    std::vector<BakedWanted> wanted;
    for (const GpuPart& part : geometry.parts)
        wanted.push_back({part.owner, part.part, part.drawn ? part.source : nullptr});
    upload_indirect(indirect, geometry, *baked, baked_parts(*baked, baked_names, wanted));
}

void Renderer::Data::drop_indirect() {
    if (indirect.sets_done == 0) return;
    for (std::size_t i = counts.size(); i < layers.targets.size(); ++i)
        clear_layer(layers, static_cast<int>(i));
    indirect.sets_done = 0;
}

bool Renderer::Data::indirect_wanted() const {
    return indirect.emitters > 0 && indirect.sets_done != (1 << jitter_sets) - 1;
}

void Renderer::Data::add_indirect_set() {
    // In the order of the direct samples: their G-buffers are there already.
    std::uint32_t sample = 0;
    while ((indirect.sets_done >> sample_set(sample) & 1) != 0) sample += samples_per_set;
    const GBuffer& buffer =
        gbuffer_of(gbuffers, sample_set(sample), geometry, view, gbuffer_program);
    std::vector<int> targets;
    for (std::size_t i = 0; i < indirect.emitters; ++i)
        targets.push_back(static_cast<int>(counts.size() + i));
    const LensBuffer* lens = lens_of(buffer.set);
    add_indirect(indirect, buffer, lens, geometry, view, width_px, height_px, layers.pictures,
                 targets);
    if (lens != nullptr)
        add_mirrored_indirect(lenses, *lens, geometry, *baked, indirect.baked_parts,
                              layers.pictures, targets, options.specular);
}

/// The same light's indirect layer: as many samples as sub-pixel places.
LayerWeight Renderer::Data::indirect_weight(std::size_t light, const LayerWeight& direct) const {
    const int sets = std::popcount(static_cast<unsigned>(indirect.sets_done));
    const auto scale =
        static_cast<float>(std::max(1, counts[light])) / static_cast<float>(std::max(1, sets));
    return {static_cast<int>(counts.size() + light), direct.factor * scale};
}

bool Renderer::Data::wanted(std::size_t layer, int target) const {
    if (layer < lights()) return studio->emitters[layer].power > 0.0 && counts[layer] < target;
    // The work light needs no finer shadows than these.
    return layer == lights() && view.work_light && counts[layer] < std::min(target, 32);
}

void Renderer::Data::add_samples(std::size_t layer, int most) {
    const bool work = layer == lights();
    const Emitter& emitter = work ? work_light : studio->emitters[layer];
    see_receivers();
    const GBuffer& buffer =
        gbuffer_of(gbuffers, sample_set(static_cast<std::uint32_t>(counts[layer])), geometry, view,
                   gbuffer_program);
    const std::vector<LightPoint> points = next_points(emitter, counts[layer], most, receivers_m,
                                                       geometry.caster_boxes, pass.maps.size_px);
    draw_maps(pass, geometry, points);
    glBindVertexArray(nothing.id());
    PictureFrame frame{view, width_px, height_px, 0.0F};
    if (work && indirect.emitters == 0)
        frame.ambient =
            static_cast<float>(work_light_ambient_share * work_light_factor(work_light));
    shade_points(pass, buffer, lens_of(buffer.set), geometry, frame, emitter,
                 static_cast<int>(layer), points, layers.targets[layer]);
    if (problem.empty()) problem = pass.problem;
    counts[layer] += static_cast<int>(points.size());
}

LayerWeight Renderer::Data::weight_of(std::size_t light, bool with_shutter) const {
    return {static_cast<int>(light),
            layer_factor(studio->emitters[light], studio->set.camera.shutter_s, with_shutter,
                         counts[light])};
}

std::vector<LayerWeight> Renderer::Data::measured_weights() const {
    std::vector<LayerWeight> weights;
    for (std::size_t i = 0; i < lights(); ++i)
        if (studio->emitters[i].power > 0.0) {
            weights.push_back(weight_of(i, true));
            if (indirect.sets_done != 0) weights.push_back(indirect_weight(i, weights.back()));
        }
    return weights;
}

Renderer::Renderer()
    : data_(std::make_unique<Data>()) {
    data_->load_program(data_->gbuffer_program, "gbuffer.vert", "gbuffer.frag");
    data_->load_program(data_->pass.shadow, "shadow.vert", "shadow.frag");
    data_->load_program(data_->indirect.program, "indirect.vert", "indirect.frag");
    data_->load_program(data_->lenses.indirect, "fullscreen.vert", "lens_indirect.frag");
    data_->load_program(data_->remix_program, "fullscreen.vert", "remix.frag");
    data_->load_program(data_->display_program, "fullscreen.vert", "display.frag");
    data_->nothing = VertexArray::make();
    set_options({});
}

Renderer::~Renderer() = default;

const std::string& Renderer::problem() const {
    return data_->problem;
}

void Renderer::set_options(const RenderOptions& options) {
    Data& d = *data_;
    const BindingGuard guard;
    const bool recast = options.coarse_casters != d.options.coarse_casters;
    d.options = options;
    d.pass.specular = options.specular;
    d.indirect.specular = options.specular;
    d.pass.skin_wrap = options.skin_wrap;
    const int by_device = gl_is_software() ? 1024 : 2048;
    const int size = options.shadow_map_px > 0 ? options.shadow_map_px : by_device;
    if (size != d.pass.maps.size_px) d.pass.maps = ShadowMaps{size, {}, {}};
    if (recast && d.studio) {
        d.geometry = upload_geometry(*d.studio, d.geometry, options.coarse_casters);
        d.forget_picture();
        d.take_indirect();
    }
    d.drop_indirect();
    d.restart_all();
}

void Renderer::show(std::shared_ptr<const Studio> studio) {
    Data& d = *data_;
    const BindingGuard guard;
    d.geometry = upload_geometry(*studio, d.geometry, d.options.coarse_casters);
    const std::shared_ptr<const Studio> before = std::exchange(d.studio, std::move(studio));
    d.work_light = make_work_light(d.studio->set.room);
    if (d.width_px <= 0) return;
    std::vector<SceneChange> changes;
    if (before) changes = scene_changes(before->scene, d.studio->scene);
    const bool first = !before || d.layers.targets.empty();
    const glm::mat4 sight = clip_from_room(d.view, d.width_px, d.height_px, glm::vec2(0.0F));
    Restart restart;
    if (first)
        restart.picture = true;
    else
        restart = restarts_after(*before, *d.studio, changes, sight, d.receivers_m);
    d.fit_layers();
    if (!changes.empty()) d.take_indirect();
    // Lenses mirror what is out of sight, too.
    if (!changes.empty() && wears_lenses(*d.studio)) restart.picture = true;
    if (restart.picture) {
        d.forget_picture();
        d.receivers_m.clear();
        d.drop_indirect();
        d.restart_all();
        return;
    }
    for (std::size_t i = 0; i < restart.lights.size(); ++i)
        if (restart.lights[i] != 0) d.restart(i);
}

void Renderer::look(const View& view, int width_px, int height_px) {
    Data& d = *data_;
    const bool same_place = sees_the_same(view, d.view);
    const bool same_size = width_px == d.width_px && height_px == d.height_px;
    d.view = view;
    if (same_place && same_size) return;
    const BindingGuard guard;
    d.width_px = std::max(1, width_px);
    d.height_px = std::max(1, height_px);
    if (!same_size) d.gbuffers = make_gbuffers(d.width_px, d.height_px);
    d.forget_picture();
    d.receivers_m.clear();
    d.fit_layers();
    d.drop_indirect();
    d.restart_all();
}

void Renderer::set_indirect(std::shared_ptr<const IndirectLight> light, const Studio& of) {
    Data& d = *data_;
    const BindingGuard guard;
    d.baked = std::move(light);
    d.baked_names.clear();
    for (const ScenePart& part : of.scene.parts) d.baked_names.push_back({part.owner, part.part});
    d.take_indirect();
    // Its ambient share is in the bake, or is not any more.
    if (d.ready()) d.restart(d.lights());
}

bool Renderer::refine(int target_samples, int per_light) {
    Data& d = *data_;
    if (!d.ready()) return false;
    const BindingGuard guard;
    bool any = false;
    for (std::size_t layer = 0; layer < d.counts.size(); ++layer) {
        if (!d.wanted(layer, target_samples)) continue;
        const int most = std::min(std::max(1, per_light), target_samples - d.counts[layer]);
        d.add_samples(layer, most);
        any = true;
    }
    if (d.indirect_wanted()) {
        d.add_indirect_set();
        any = true;
    }
    return any;
}

int Renderer::samples() const {
    return data_->studio ? fewest_samples(data_->studio->emitters, data_->counts) : 0;
}

int Renderer::samples_of(int light) const {
    const auto i = static_cast<std::size_t>(light);
    return light >= 0 && i < data_->counts.size() ? data_->counts[i] : 0;
}

} // namespace keystead
