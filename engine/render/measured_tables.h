// Measured distributions as textures that the shading pass reads.
#pragma once

#include "engine/gl/objects.h"
#include "sim/light/measured.h"

#include <map>
#include <memory>

namespace keystead {

/// One texture a table, kept while the table is in use somewhere.
class MeasuredTables {
public:
    /// The table's texture (GL_R32F, angles across, planes up); made when first asked for.
    unsigned texture(const std::shared_ptr<const DirectionTable>& table);

private:
    struct Kept {
        std::weak_ptr<const DirectionTable> table;
        Texture texture;
    };
    std::map<const DirectionTable*, Kept> kept_;
};

} // namespace keystead
