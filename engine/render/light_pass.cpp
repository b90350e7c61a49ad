#include "engine/render/light_pass.h"

#include <algorithm>
#include <array>
#include <glad/gl.h>

namespace keystead {

namespace {

/// Texture units of the shading pass.
enum Unit {
    unit_position,
    unit_normals,
    unit_surface,
    unit_tangent,
    unit_materials,
    unit_maps,
    unit_lens,
    unit_measured
};

/// Which pixels a draw of the shading pass is for.
enum class Shaded { plain, special, mirrored };

void grow_maps(ShadowMaps& shadow, int needed) {
    if (static_cast<int>(shadow.targets.size()) >= needed) return;
    // In steps, so that a drag does not allocate again and again.
    const int count = needed <= 4 ? 4 : needed <= 6 ? 6 : most_maps;
    shadow.maps = make_shadow_array(shadow.size_px, count);
    shadow.targets.clear();
    for (int i = 0; i < count; ++i) {
        shadow.targets.push_back(make_framebuffer({}, 0));
        glFramebufferTextureLayer(GL_FRAMEBUFFER, GL_DEPTH_ATTACHMENT, shadow.maps.id(), 0, i);
    }
}

bool shines_all_round(const Emitter& emitter) {
    return emitter.shape == ModifierShape::bare && !emitter.grid && emitter.beam.plain();
}

glm::vec4 vec4_of(const std::array<double, 4>& values) {
    return {static_cast<float>(values[0]), static_cast<float>(values[1]),
            static_cast<float>(values[2]), static_cast<float>(values[3])};
}

void set_front(Program& program, const FaceFront& front) {
    program.set("emitter.front.half_size", glm::vec2(static_cast<float>(front.half_width_m),
                                                     static_cast<float>(front.half_height_m)));
    program.set("emitter.front.lip", static_cast<float>(front.lip_m));
    program.set("emitter.front.door_length", static_cast<float>(front.door_length_m));
    program.set("emitter.front.door_sine", vec4_of(front.door_sine));
    program.set("emitter.front.door_cosine", vec4_of(front.door_cosine));
    program.set("emitter.front.lamp_ahead", static_cast<float>(front.lamp_ahead_m));
    program.set("emitter.front.lamp_radius", static_cast<float>(front.lamp_radius_m));
}

/// What the shader's variant does not know already.
void set_emitter(Program& program, const Emitter& e) {
    program.set("emitter.shape", static_cast<int>(e.shape));
    program.set("emitter.centre", glm::vec3(e.centre_m));
    program.set("emitter.across", glm::vec3(e.axes[0]));
    program.set("emitter.upward", glm::vec3(e.axes[1]));
    program.set("emitter.outward", glm::vec3(e.axes[2]));
    program.set("emitter.half_size",
                0.5F * glm::vec2(static_cast<float>(e.width_m), static_cast<float>(e.height_m)));
    program.set("emitter.inner",
                e.width_m > 0.0 ? static_cast<float>(e.inner_width_m / e.width_m) : 0.0F);
    program.set("emitter.depth", static_cast<float>(e.depth_m));
    program.set("emitter.bulges", e.bulges ? 1 : 0);
    program.set("emitter.deflector", static_cast<float>(e.deflector));
    program.set("emitter.hot_spot", static_cast<float>(e.hot_spot));
    program.set("emitter.exponent", static_cast<float>(e.beam.exponent));
    program.set("emitter.cutoff", static_cast<float>(radians(e.beam.cutoff_half_deg)));
    program.set("emitter.cutoff_edge", static_cast<float>(radians(e.beam.cutoff_edge_deg)));
    program.set("emitter.gain", static_cast<float>(e.beam.gain));
    if (!e.front.empty()) set_front(program, e.front);
    const Grid grid = e.grid.value_or(Grid{});
    program.set("emitter.grid_width", static_cast<float>(grid.cell_width_m));
    program.set("emitter.grid_depth", static_cast<float>(grid.cell_depth_m));
    program.set("emitter.grid_open", static_cast<float>(grid.open_fraction));
    program.set("emitter.grid_wall", static_cast<float>(grid.wall_reflection));
}

void set_points(Program& program, std::span<const LightPoint> points) {
    std::array<glm::vec4, most_points> positions{}, normals{}, maps{};
    std::array<glm::mat4, most_maps> clips{};
    std::array<glm::vec4, most_maps> depths{}, texels{};
    std::size_t map = 0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const EmitterPoint& p = points[i].point;
        positions[i] = glm::vec4(glm::vec3(p.position_m), static_cast<float>(p.area_m2));
        normals[i] = glm::vec4(glm::vec3(p.normal), static_cast<float>(p.relative_exitance));
        maps[i] = glm::vec4(static_cast<float>(map), static_cast<float>(points[i].views.size()),
                            0.0F, 0.0F);
        for (const ShadowView& view : points[i].views) {
            clips[map] = view.clip_from_room;
            depths[map] = view.depth_row;
            texels[map] = glm::vec4(view.texel_slope, 0.0F, 0.0F, 0.0F);
            ++map;
        }
    }
    program.set("point_count", static_cast<int>(points.size()));
    // No more than the variant of the shader declares.
    const std::size_t used_maps = std::max<std::size_t>(1, map);
    program.set("point_position", std::span<const glm::vec4>(positions).first(points.size()));
    program.set("point_normal", std::span<const glm::vec4>(normals).first(points.size()));
    program.set("point_maps", std::span<const glm::vec4>(maps).first(points.size()));
    program.set("map_clip", std::span<const glm::mat4>(clips).first(used_maps));
    program.set("map_depth", std::span<const glm::vec4>(depths).first(used_maps));
    program.set("map_texel", std::span<const glm::vec4>(texels).first(used_maps));
}

/// A G-buffer's pictures: the view's, or what the lenses mirror.
void bind_surfaces(const Texture& position, const Texture& normals, const Texture& surface) {
    bind_texture(unit_position, GL_TEXTURE_2D, position.id());
    bind_texture(unit_normals, GL_TEXTURE_2D, normals.id());
    bind_texture(unit_surface, GL_TEXTURE_2D, surface.id());
}

void bind_inputs(Program& program, const GBuffer& buffer, const Geometry& geometry,
                 const ShadowMaps& maps) {
    bind_texture(unit_tangent, GL_TEXTURE_2D, buffer.tangent.id());
    bind_texture(unit_materials, GL_TEXTURE_2D, geometry.materials.id());
    bind_texture(unit_maps, GL_TEXTURE_2D_ARRAY, maps.maps.id());
    program.set("g_position", unit_position);
    program.set("g_normals", unit_normals);
    program.set("g_surface", unit_surface);
    program.set("g_tangent", unit_tangent);
    program.set("materials", unit_materials);
    program.set("shadow_maps", unit_maps);
}

int cell_of(const Emitter& emitter) {
    return !emitter.grid ? 0 : emitter.grid->cell == GridCell::square ? 2 : 1;
}

/// The shading program for this kind of light and number of maps.
Program* variant(LightPass& pass, const Emitter& emitter, std::span<const LightPoint> points,
                 Shaded shaded, bool lensed) {
    std::string defines = "#define GRID_CELL " + std::to_string(cell_of(emitter)) + '\n';
    if (emitter.shape != ModifierShape::umbrella) defines += "#define NO_CAP\n";
    if (!emitter.beam.plain()) defines += "#define PROFILE\n";
    if (!emitter.front.empty()) defines += "#define FRONT\n";
    if (emitter.measured != nullptr) defines += "#define MEASURED\n";
    if (shaded != Shaded::plain) defines += "#define SPECIAL\n";
    if (shaded == Shaded::mirrored) defines += "#define MIRRORED\n";
    if (lensed) defines += "#define LENSED\n";
    if (points.size() == 1 && points[0].views.size() <= 1) defines += "#define ONE_POINT\n";
    const auto known = pass.shade.find(defines);
    if (known != pass.shade.end()) return &known->second;
    Result<Program> made = Program::load("fullscreen.vert", "shade.frag", defines);
    if (!made) {
        pass.problem = made.problem().message();
        return nullptr;
    }
    return &pass.shade.emplace(defines, std::move(made).value()).first->second;
}

/// Pixels that a box can cover; everything if it reaches behind the eye.
void add_pixels(const Box& box, const glm::mat4& clip, const PictureFrame& frame, glm::vec2& low,
                glm::vec2& high) {
    for (unsigned i = 0; i < 8; ++i) {
        const glm::vec4 p = clip * glm::vec4((i & 1U) != 0 ? box.high_m.x : box.low_m.x,
                                             (i & 2U) != 0 ? box.high_m.y : box.low_m.y,
                                             (i & 4U) != 0 ? box.high_m.z : box.low_m.z, 1.0F);
        const glm::vec2 size(frame.width_px, frame.height_px);
        const glm::vec2 at = p.w > 0.02F ? (0.5F * glm::vec2(p) / p.w + 0.5F) * size : glm::vec2(0);
        low = glm::min(low, at);
        high = glm::max(high, p.w > 0.02F ? at : size);
    }
}

/// Where hair, eyes and the light's own face can be in the picture.
PixelBox special_box(const Geometry& geometry, const PictureFrame& frame, int light_index) {
    const glm::mat4 clip =
        clip_from_room(frame.view, frame.width_px, frame.height_px, glm::vec2(0.0F));
    glm::vec2 low(static_cast<float>(frame.width_px), static_cast<float>(frame.height_px));
    glm::vec2 high(0.0F);
    for (const GpuPart& part : geometry.parts) {
        const Finish finish = part.material.finish;
        const bool special =
            finish == Finish::hair || finish == Finish::eye || part.emitting_light == light_index;
        if (part.drawn && special && may_see(clip, part.mesh->box))
            add_pixels(part.mesh->box, clip, frame, low, high);
    }
    // A pixel of margin for the sub-pixel places.
    const glm::vec2 size(frame.width_px, frame.height_px);
    low = glm::clamp(glm::floor(low) - 2.0F, glm::vec2(0.0F), size);
    high = glm::clamp(glm::ceil(high) + 2.0F, glm::vec2(0.0F), size);
    if (high.x <= low.x || high.y <= low.y || high == glm::vec2(2.0F)) return {};
    return {static_cast<int>(low.x), static_cast<int>(low.y), static_cast<int>(high.x - low.x),
            static_cast<int>(high.y - low.y)};
}

PixelBox box_for(Shaded shaded, const LensBuffer* lens, const Geometry& geometry,
                 const PictureFrame& frame, int light_index) {
    switch (shaded) {
    case Shaded::special:
        return special_box(geometry, frame, light_index);
    case Shaded::mirrored:
        return lens != nullptr ? lens->sight.box : PixelBox{};
    case Shaded::plain:
        break;
    }
    return {0, 0, frame.width_px, frame.height_px};
}

void set_frame(Program& program, const LightPass& pass, const PictureFrame& frame,
               int light_index) {
    program.set("eye", glm::vec3(frame.view.eye_m));
    program.set("pixel_slope", static_cast<float>(2.0 * frame.view.tan_half_height /
                                                  std::max(1, frame.height_px)));
    program.set("light_index", light_index);
    program.set("specular", pass.specular ? 1 : 0);
    program.set("skin_wrap", pass.skin_wrap ? 1 : 0);
    program.set("ambient", frame.ambient);
}

} // namespace

std::vector<LightPoint> next_points(const Emitter& emitter, int first, int wanted,
                                    std::span<const glm::vec3> receivers_m,
                                    std::span<const Box> casters, int map_px) {
    std::vector<LightPoint> points;
    const int until_next_set = samples_per_set - first % samples_per_set;
    const int count = std::min({wanted, until_next_set, most_points});
    std::size_t maps = 0;
    for (int i = 0; i < count; ++i) {
        const glm::dvec2 place = light_sample(static_cast<std::uint32_t>(first + i));
        LightPoint next{emitter_point(emitter, place.x, place.y), {}};
        const glm::vec3 axis =
            shines_all_round(emitter) ? glm::vec3(0.0F) : glm::vec3(next.point.normal);
        next.views =
            fit_shadow_views(glm::vec3(next.point.position_m), axis, receivers_m, casters, map_px);
        maps += next.views.size();
        if (i > 0 && maps > most_maps) break;
        points.push_back(std::move(next));
    }
    return points;
}

void draw_maps(LightPass& pass, const Geometry& geometry, std::span<const LightPoint> points) {
    std::size_t needed = 0;
    for (const LightPoint& point : points) needed += point.views.size();
    grow_maps(pass.maps, std::max(1, static_cast<int>(needed)));
    glViewport(0, 0, pass.maps.size_px, pass.maps.size_px);
    glDisable(GL_BLEND);
    glDisable(GL_SCISSOR_TEST);
    glEnable(GL_DEPTH_TEST);
    glDepthMask(GL_TRUE);
    glDepthFunc(GL_LESS);
    glClearDepth(1.0);
    pass.shadow.use();
    std::size_t map = 0;
    for (const LightPoint& point : points)
        for (const ShadowView& view : point.views) {
            glBindFramebuffer(GL_FRAMEBUFFER, pass.maps.targets[map++].id());
            glClear(GL_DEPTH_BUFFER_BIT);
            pass.shadow.set("clip_from_room", view.clip_from_room);
            draw_casters(geometry, view.clip_from_room);
        }
}

void shade_points(LightPass& pass, const GBuffer& buffer, const LensBuffer* lens,
                  const Geometry& geometry, const PictureFrame& frame, const Emitter& emitter,
                  int light_index, std::span<const LightPoint> points, const Framebuffer& target) {
    glBindFramebuffer(GL_FRAMEBUFFER, target.id());
    glViewport(0, 0, frame.width_px, frame.height_px);
    glDisable(GL_DEPTH_TEST);
    glDisable(GL_CULL_FACE);
    glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
    glEnable(GL_BLEND);
    glBlendEquation(GL_FUNC_ADD);
    glBlendFunc(GL_ONE, GL_ONE);
    for (const Shaded shaded : {Shaded::plain, Shaded::special, Shaded::mirrored}) {
        const PixelBox drawn = box_for(shaded, lens, geometry, frame, light_index);
        if (drawn.width <= 0 || drawn.height <= 0) continue;
        Program* program = variant(pass, emitter, points, shaded, lens != nullptr);
        if (program == nullptr) return;
        program->use();
        set_frame(*program, pass, frame, light_index);
        if (shaded == Shaded::mirrored)
            bind_surfaces(lens->position, lens->normals, lens->surface);
        else
            bind_surfaces(buffer.position, buffer.normals, buffer.surface);
        bind_inputs(*program, buffer, geometry, pass.maps);
        bind_lens(*program, lens, unit_lens);
        set_emitter(*program, emitter);
        if (emitter.measured != nullptr) {
            bind_texture(unit_measured, GL_TEXTURE_2D, pass.measured.texture(emitter.measured));
            program->set("measured", unit_measured);
        }
        set_points(*program, points);
        glEnable(GL_SCISSOR_TEST);
        glScissor(drawn.left, drawn.bottom, drawn.width, drawn.height);
        glDrawArrays(GL_TRIANGLES, 0, 3);
    }
    glDisable(GL_SCISSOR_TEST);
    glDisable(GL_BLEND);
}

} // namespace keystead
