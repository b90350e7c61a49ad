#include "engine/ui/seen_notes.h"

#include <algorithm>

namespace keystead::ui {

namespace {

SeenNote note_of(const Finding& finding) {
    return {finding.code, finding.about, finding.message};
}

/// The file's entry, moved to the front.
SeenOfSet& entry_of(std::vector<SeenOfSet>& all, const std::string& file) {
    const auto found = std::find_if(all.begin(), all.end(),
                                    [&](const SeenOfSet& each) { return each.file == file; });
    if (found == all.end())
        all.insert(all.begin(), {file, {}});
    else
        std::rotate(all.begin(), found, found + 1);
    if (all.size() > most_seen_sets) all.resize(most_seen_sets);
    return all.front();
}

} // namespace

bool can_be_seen(const Finding& finding) {
    return finding.level != Level::danger;
}

bool is_seen(const std::vector<SeenNote>& notes, const Finding& finding) {
    return can_be_seen(finding) &&
           std::find(notes.begin(), notes.end(), note_of(finding)) != notes.end();
}

const std::vector<SeenNote>* seen_of(const std::vector<SeenOfSet>& all, const std::string& file) {
    for (const SeenOfSet& each : all)
        if (each.file == file) return &each.notes;
    return nullptr;
}

void mark_seen(std::vector<SeenOfSet>& all, const std::string& file, const Finding& finding,
               bool seen) {
    if (!can_be_seen(finding)) return;
    std::vector<SeenNote>& notes = entry_of(all, file).notes;
    std::erase(notes, note_of(finding));
    if (seen) notes.push_back(note_of(finding));
    if (notes.empty()) all.erase(all.begin());
}

void seen_moved(std::vector<SeenOfSet>& all, const std::string& from, const std::string& to) {
    if (from == to) return;
    const std::vector<SeenNote>* notes = seen_of(all, from);
    if (notes == nullptr) return;
    const std::vector<SeenNote> copy = *notes;
    entry_of(all, to).notes = copy;
    if (from.empty()) forget_seen(all, from);
}

void forget_seen(std::vector<SeenOfSet>& all, const std::string& file) {
    std::erase_if(all, [&](const SeenOfSet& each) { return each.file == file; });
}

Folded fold_seen(const Review* review, const std::vector<SeenNote>* notes) {
    Folded folded;
    if (review == nullptr) return folded;
    for (std::size_t i = 0; i < review->findings.size(); ++i) {
        const bool seen = notes != nullptr && is_seen(*notes, review->findings[i]);
        (seen ? folded.seen : folded.open).push_back(i);
    }
    return folded;
}

} // namespace keystead::ui
