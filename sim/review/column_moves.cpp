#include "sim/review/column_moves.h"

#include "sim/set/json_text.h"

#include <cmath>

namespace keystead {

Emitter with_column_raised(const Studio& studio, std::size_t light, double rise_m) {
    Light moved = studio.set.lights[light];
    moved.support.column.height_m += rise_m;
    const AimTarget aim = resolve_aim(moved, studio.subject->landmarks);
    return make_emitter(moved, pose_support(moved, aim), studio.set.meter);
}

std::optional<Edit> column_edit(const Light& light, double rise_m) {
    const Column& column = light.support.column;
    const double centimetres = 100.0 * (column.height_m + rise_m);
    const double height_m =
        0.01 * (rise_m > 0.0 ? std::ceil(centimetres - 1e-6) : std::floor(centimetres + 1e-6));
    if (height_m < column.min_height_m || height_m > column.max_height_m) return {};
    return Edit{"lights[" + light.id + "].support.column.height_m", number_text(height_m)};
}

} // namespace keystead
