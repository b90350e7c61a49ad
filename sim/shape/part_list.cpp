#include "sim/shape/part_list.h"

#include "sim/shape/build/finish.h"
#include "sim/shape/content_key.h"

#include <algorithm>
#include <iterator>
#include <tbb/parallel_for.h>
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

void PartList::add(std::string_view part, const Material& material, Mesh welded,
                   double crease_deg) {
    auto found = std::find_if(gathered_.begin(), gathered_.end(), [&](const Gathered& one) {
        return !one.alone && one.part.part == part && same(one.part.material, material);
    });
    if (found == gathered_.end()) {
        add_alone(part, material, {});
        found = std::prev(gathered_.end());
        found->alone = false;
    }
    found->pieces.push_back({std::move(welded), crease_deg});
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

/// While a light is dragged its gear is made again for every picture: all hands to it.
void PartList::finish_pieces() {
    std::vector<Piece*> pieces;
    for (Gathered& one : gathered_)
        for (Piece& piece : one.pieces) pieces.push_back(&piece);
    tbb::parallel_for(std::size_t{0}, pieces.size(), [&](std::size_t i) {
        pieces[i]->mesh = build::finished(pieces[i]->mesh, pieces[i]->crease_deg);
    });
    for (Gathered& one : gathered_) {
        for (Piece& piece : one.pieces) append(one.mesh, piece.mesh);
        one.pieces.clear();
    }
}

std::vector<ScenePart> PartList::take(std::uint64_t content_key) {
    finish_pieces();
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
