#include "engine/render/measured_tables.h"

#include <glad/gl.h>

namespace keystead {

unsigned MeasuredTables::texture(const std::shared_ptr<const DirectionTable>& table) {
    std::erase_if(kept_, [](const auto& one) { return one.second.table.expired(); });
    const auto known = kept_.find(table.get());
    if (known != kept_.end()) return known->second.texture.id();
    Texture made = make_texture(GL_R32F, DirectionTable::angles, DirectionTable::planes);
    glTexSubImage2D(GL_TEXTURE_2D, 0, 0, 0, DirectionTable::angles, DirectionTable::planes, GL_RED,
                    GL_FLOAT, table->per_lumen_sr.data());
    return kept_.emplace(table.get(), Kept{table, std::move(made)}).first->second.texture.id();
}

} // namespace keystead
