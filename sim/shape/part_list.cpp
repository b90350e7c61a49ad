#include "sim/shape/part_list.h"

#include "sim/shape/build/finish.h"
#include "sim/shape/content_key.h"

#include <algorithm>
#include <utility>

namespace keystead {

namespace {

bool same(const Material& a, const Material& b) {
    return a.albedo == b.albedo && a.roughness == b.roughness && a.f0 == b.f0 &&
           a.metal == b.metal && a.finish == b.finish;
}

} // namespace

std::uint64_t part_key(std::uint64_t content_key, std::size_t place) {
    return ContentKey().add(content_key).add(static_cast<std::uint64_t>(place)).value();
}

void PartList::add(std::string_view part, const Material& material, const Mesh& welded,
                   double crease_deg) {
    const auto found = std::find_if(gathered_.begin(), gathered_.end(), [&](const Gathered& one) {
        return !one.alone && one.part.part == part && same(one.part.material, material);
    });
    if (found != gathered_.end()) {
        append(found->mesh, build::finished(welded, crease_deg));
        return;
    }
    add_alone(part, material, build::finished(welded, crease_deg));
    gathered_.back().alone = false;
}

ScenePart& PartList::add_alone(std::string_view part, const Material& material, Mesh mesh) {
    Gathered& one = gathered_.emplace_back();
    one.part.owner = owner_;
    one.part.part = part;
    one.part.material = material;
    one.part.mask = mask_;
    one.mesh = std::move(mesh);
    one.alone = true;
    return one.part;
}

std::vector<ScenePart> PartList::take(std::uint64_t content_key) {
    std::vector<ScenePart> parts;
    parts.reserve(gathered_.size());
    for (Gathered& one : gathered_) {
        one.part.mesh = std::make_shared<const Mesh>(std::move(one.mesh));
        one.part.key = part_key(content_key, parts.size());
        parts.push_back(std::move(one.part));
    }
    gathered_.clear();
    return parts;
}

} // namespace keystead
