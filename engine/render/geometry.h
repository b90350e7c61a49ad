// A scene on the graphics card: one buffer a part, kept while the part's key stays the same.
#pragma once

#include "engine/gl/objects.h"
#include "engine/gl/program.h"
#include "engine/render/shadow_fit.h"
#include "sim/studio/studio.h"

#include <memory>
#include <string>
#include <vector>

namespace keystead {

/// A part's vertices as uploaded. Missing colours and roughness are the material's.
struct GpuMesh {
    VertexArray vertex_array;
    Buffer vertices, indices;
    int index_count = 0;
    Box box;
    bool closed = false; ///< every edge shared by two triangles: back faces alone bound it
};

struct GpuPart {
    std::string owner, part;
    std::uint64_t key = 0;
    const Mesh* source = nullptr; ///< identity only
    std::shared_ptr<GpuMesh> mesh;
    Material material;
    int emitting_light = -1;
    bool drawn = true; ///< false: stands in for others in shadow maps only
    bool casts = true;
};

struct Geometry {
    std::vector<GpuPart> parts; ///< drawn ones first, in the scene's order
    Texture materials;          ///< one texel a part: f0, metal, finish, emitting light
    std::vector<Box> caster_boxes;
};

/// Uploads what changed and shares the rest with `previous`.
/// `coarse_casters`: the sitter's own coarse surface throws its shadow.
Geometry upload_geometry(const Studio& studio, const Geometry& previous, bool coarse_casters);

/// Draws the visible parts; the program gets `part`, `finish` and `own_roughness`.
void draw_visible(const Geometry& geometry, Program& program, const glm::mat4& clip_from_room);

/// Draws what casts shadows into the bound depth map. Closed surfaces show their back faces only;
/// open sheets both sides, pushed away by their slope.
void draw_casters(const Geometry& geometry, const glm::mat4& clip_from_room);

} // namespace keystead
