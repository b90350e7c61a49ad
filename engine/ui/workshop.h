// Background work on a set: the studio (posed subject, scene) and the review. One thread; results
// come back through one queue, each stamped with the revision of the document it was made from.
#pragma once

#include "engine/ui/subject_outline.h"
#include "sim/review/review.h"
#include "sim/studio/studio.h"
#include "sim/transport/bake.h"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

namespace keystead::ui {

/// What a finished piece of work brings; only what it made is set.
struct Finished {
    std::uint64_t revision = 0;
    std::shared_ptr<const Studio> studio;
    std::shared_ptr<const SubjectOutline> outline; ///< with the studio
    std::optional<Review> review;
    bool with_margins = false;                     ///< the review says how far the head may turn
    std::shared_ptr<const IndirectLight> indirect; ///< light by way of other surfaces, for `studio`
};

class Workshop {
public:
    /// `wake` is called from the worker whenever something was finished.
    explicit Workshop(std::function<void()> wake);
    ~Workshop();
    Workshop(const Workshop&) = delete;
    Workshop& operator=(const Workshop&) = delete;

    /// Replaces whatever was waiting. `hurried`: a drag is in hand, leave the slow margins out.
    /// `folder`: the set's own, where relative paths in it start; meshes `at_hand` are not read
    /// again. What `like` has in common with the set is taken from it instead of from the last job.
    void request(std::uint64_t revision, const Set& set, bool hurried,
                 const std::filesystem::path& folder = {}, const StoredMeshes& at_hand = {},
                 std::shared_ptr<const Studio> like = nullptr);

    /// Everything finished since the last call, oldest first.
    std::vector<Finished> collect();

    /// Nothing waits and nothing is being worked on.
    bool idle() const;

private:
    struct Data;
    std::unique_ptr<Data> data_;
};

} // namespace keystead::ui
