#include "engine/render/geometry.h"

#include "engine/render/gpu_mesh.h"

#include <algorithm>
#include <glad/gl.h>
#include <map>
#include <tuple>

namespace keystead {

namespace {

/// Content of a part: its key, and the mesh itself for scenes that set no keys.
using Identity = std::tuple<std::string, std::string, std::uint64_t, const Mesh*>;

Identity identity_of(const GpuPart& part) {
    return {part.owner, part.part, part.key, part.source};
}

/// Texels a row of the material texture; part numbers are row-major.
constexpr int materials_wide = 256;

GpuPart described(const ScenePart& part) {
    GpuPart made;
    made.owner = part.owner;
    made.part = part.part;
    made.key = part.key;
    made.source = part.mesh.get();
    made.material = part.material;
    made.emitting_light = part.emitting_light;
    // A face shines; what is behind it is the shell's to block. A grid is in the emission itself.
    made.casts = part.casts && part.emitting_light < 0 && part.material.finish != Finish::grid;
    return made;
}

Texture material_texture(const std::vector<GpuPart>& parts) {
    const int rows =
        std::max(1, (static_cast<int>(parts.size()) + materials_wide - 1) / materials_wide);
    std::vector<glm::vec4> texels(static_cast<std::size_t>(rows * materials_wide));
    for (std::size_t i = 0; i < parts.size(); ++i) {
        const Material& m = parts[i].material;
        texels[i] = glm::vec4(m.f0, m.metal ? 1.0F : 0.0F, static_cast<float>(m.finish),
                              static_cast<float>(parts[i].emitting_light));
    }
    Texture texture = make_texture(GL_RGBA32F, materials_wide, rows);
    glBindTexture(GL_TEXTURE_2D, texture.id());
    glTexSubImage2D(GL_TEXTURE_2D, 0, 0, 0, materials_wide, rows, GL_RGBA, GL_FLOAT, texels.data());
    return texture;
}

/// The subject's parts stop casting; its coarse closed surface does it for them.
void add_coarse_caster(const Studio& studio, std::vector<GpuPart>& parts) {
    const std::shared_ptr<const Mesh>& surface = studio.subject->caster;
    for (GpuPart& part : parts)
        if (part.owner == "subject" && part.part != "stool") part.casts = false;
    GpuPart caster;
    caster.owner = "subject";
    caster.part = "caster";
    caster.key = studio.subject_key;
    caster.source = surface.get();
    caster.drawn = false;
    parts.push_back(caster);
}

} // namespace

Geometry upload_geometry(const Studio& studio, const Geometry& previous, bool coarse_casters) {
    Geometry made;
    for (const ScenePart& part : studio.scene.parts) {
        if (!part.mesh || part.mesh->triangles.empty()) continue;
        made.parts.push_back(described(part));
    }
    const bool coarse = coarse_casters && studio.subject && studio.subject->caster &&
                        !studio.subject->caster->triangles.empty();
    if (coarse) add_coarse_caster(studio, made.parts);
    std::map<Identity, std::shared_ptr<GpuMesh>> kept;
    for (const GpuPart& part : previous.parts) kept.emplace(identity_of(part), part.mesh);
    for (GpuPart& part : made.parts) {
        const auto known = kept.find(identity_of(part));
        part.mesh = known != kept.end() ? known->second : upload_mesh(*part.source, part.material);
        if (part.casts) made.caster_boxes.push_back(part.mesh->box);
    }
    made.materials = material_texture(made.parts);
    return made;
}

void draw_visible(const Geometry& geometry, Program& program, const glm::mat4& clip_from_room) {
    glDisable(GL_CULL_FACE);
    for (std::size_t i = 0; i < geometry.parts.size(); ++i) {
        const GpuPart& part = geometry.parts[i];
        if (!part.drawn || !may_see(clip_from_room, part.mesh->box)) continue;
        program.set("part", static_cast<int>(i));
        program.set("finish", static_cast<int>(part.material.finish));
        glBindVertexArray(part.mesh->vertex_array.id());
        glDrawElements(GL_TRIANGLES, part.mesh->index_count, GL_UNSIGNED_INT, nullptr);
    }
    glBindVertexArray(0);
}

void draw_casters(const Geometry& geometry, const glm::mat4& clip_from_room) {
    glCullFace(GL_FRONT);
    glPolygonOffset(1.5F, 2.0F);
    for (const GpuPart& part : geometry.parts) {
        if (!part.casts || !may_see(clip_from_room, part.mesh->box)) continue;
        if (part.mesh->closed) {
            glEnable(GL_CULL_FACE);
            glDisable(GL_POLYGON_OFFSET_FILL);
        } else {
            glDisable(GL_CULL_FACE);
            glEnable(GL_POLYGON_OFFSET_FILL);
        }
        glBindVertexArray(part.mesh->vertex_array.id());
        glDrawElements(GL_TRIANGLES, part.mesh->index_count, GL_UNSIGNED_INT, nullptr);
    }
    glDisable(GL_POLYGON_OFFSET_FILL);
    glDisable(GL_CULL_FACE);
    glBindVertexArray(0);
}

} // namespace keystead
