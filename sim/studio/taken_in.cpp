#include "sim/studio/taken_in.h"

#include <algorithm>

namespace keystead {

PersonPart part_shown(const HeadLandmarks& face, double low_m, const UnitGuess& guess,
                      LengthUnit unit, UpAxis up) {
    // Heights of the head below the chin; a standing figure has five (a child) to seven. Our own
    // judgement.
    constexpr double most_neck = 0.6, most_bust = 4.0;
    if (face.chin && face.top) {
        const double chin = face.chin->point_m.y, head = face.top->point_m.y - chin;
        const double below = (chin - low_m) / std::max(head, 1e-3);
        return below < most_neck   ? PersonPart::head
               : below < most_bust ? PersonPart::bust
                                   : PersonPart::figure;
    }
    for (const UnitOffer& offer : guess.offers)
        if (offer.unit == unit && offer.up == up) return offer.part;
    return PersonPart::head;
}

std::string free_prop_id(const Set& set) {
    const auto taken = [&](const std::string& id) {
        const auto has = [&](const auto& list) {
            return std::any_of(list.begin(), list.end(),
                               [&](const auto& one) { return one.id == id; });
        };
        return has(set.lights) || has(set.panels) || has(set.props) || has(set.meter_points);
    };
    for (int i = 1;; ++i)
        if (std::string id = "prop-" + std::to_string(i); !taken(id)) return id;
}

Vec3 free_prop_place_m(const Set& set) {
    constexpr double first_m = 0.9, step_m = 0.5, wall_m = 0.4;
    const double right_m = set.room.width_m - set.room.left_of_subject_m - wall_m;
    const double wanted = first_m + step_m * static_cast<double>(set.props.size());
    return {std::max(0.0, std::min(wanted, right_m)), 0.0, 0.0};
}

} // namespace keystead
