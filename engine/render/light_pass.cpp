#include "engine/render/light_pass.h"

#include <algorithm>
#include <array>
#include <glad/gl.h>

namespace keystead {

namespace {

/// Texture units of the shading pass.
enum Unit { unit_position, unit_normals, unit_surface, unit_tangent, unit_materials, unit_maps };

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
    return emitter.shape == ModifierShape::bare && !emitter.grid;
}

void set_emitter(Program& program, const Emitter& e) {
    program.set("emitter_shape", static_cast<int>(e.shape));
    program.set("emitter_centre", glm::vec3(e.centre_m));
    program.set("emitter_axes", glm::mat3(e.axes));
    program.set("emitter_half",
                0.5F * glm::vec2(static_cast<float>(e.width_m), static_cast<float>(e.height_m)));
    program.set("emitter_inner",
                e.width_m > 0.0 ? static_cast<float>(e.inner_width_m / e.width_m) : 0.0F);
    program.set("emitter_depth", static_cast<float>(e.depth_m));
    program.set("emitter_hot_spot", static_cast<float>(e.hot_spot));
    const int cell = !e.grid ? 0 : e.grid->cell == GridCell::square ? 2 : 1;
    program.set("grid_cell", cell);
    const Grid grid = e.grid.value_or(Grid{});
    program.set("grid_width", static_cast<float>(grid.cell_width_m));
    program.set("grid_depth", static_cast<float>(grid.cell_depth_m));
    program.set("grid_open", static_cast<float>(grid.open_fraction));
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
    program.set("point_position", std::span<const glm::vec4>(positions));
    program.set("point_normal", std::span<const glm::vec4>(normals));
    program.set("point_maps", std::span<const glm::vec4>(maps));
    program.set("map_clip", std::span<const glm::mat4>(clips));
    program.set("map_depth", std::span<const glm::vec4>(depths));
    program.set("map_texel", std::span<const glm::vec4>(texels));
}

void bind_inputs(Program& program, const GBuffer& buffer, const Geometry& geometry,
                 const ShadowMaps& maps) {
    bind_texture(unit_position, GL_TEXTURE_2D, buffer.position.id());
    bind_texture(unit_normals, GL_TEXTURE_2D, buffer.normals.id());
    bind_texture(unit_surface, GL_TEXTURE_2D, buffer.surface.id());
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

void shade_points(LightPass& pass, const GBuffer& buffer, const Geometry& geometry,
                  const View& view, int height_px, const Emitter& emitter, int light_index,
                  std::span<const LightPoint> points, const Framebuffer& target, float ambient) {
    glBindFramebuffer(GL_FRAMEBUFFER, target.id());
    glDisable(GL_DEPTH_TEST);
    glDisable(GL_CULL_FACE);
    glColorMask(GL_TRUE, GL_TRUE, GL_TRUE, GL_TRUE);
    glEnable(GL_BLEND);
    glBlendEquation(GL_FUNC_ADD);
    glBlendFunc(GL_ONE, GL_ONE);
    Program& program = pass.shade;
    program.use();
    bind_inputs(program, buffer, geometry, pass.maps);
    set_emitter(program, emitter);
    set_points(program, points);
    program.set("eye", glm::vec3(view.eye_m));
    program.set("pixel_slope",
                static_cast<float>(2.0 * view.tan_half_height / std::max(1, height_px)));
    program.set("light_index", light_index);
    program.set("specular", pass.specular ? 1 : 0);
    program.set("skin_wrap", pass.skin_wrap ? 1 : 0);
    program.set("ambient", ambient);
    glDrawArrays(GL_TRIANGLES, 0, 3);
    glDisable(GL_BLEND);
}

} // namespace keystead
