// What probes got of lights in earlier reviews, so that an edit casts rays only where something
// moved in between.
#pragma once

#include "sim/light/meter.h"
#include "sim/meter/probe_paths.h"
#include "sim/studio/shades.h"
#include "sim/studio/studio.h"

#include <cstdint>
#include <functional>
#include <mutex>
#include <unordered_map>
#include <vector>

namespace keystead {

/// Keys of everything that a light's readings for an exitance of 1 depend on: output, power, colour
/// and what is switched off are no part of them.
struct ReadingKeys {
    Shades shades;
    std::vector<std::uint64_t> lights; ///< by light: its face
    std::vector<Extent> faces;         ///< by light
    std::uint64_t everything = 0;      ///< all lights and the whole scene

    ReadingKeys() = default;
    explicit ReadingKeys(const Studio& studio);
};

/// Between two calls of `begin` several threads may ask.
class ProbeMemory {
public:
    /// From here on values of `studio` are asked for. What was not asked for since the last call is
    /// forgotten.
    void begin(const Studio& studio);
    const ReadingKeys& keys() const { return keys_; }

    /// The values kept under `key`, or new ones.
    const std::vector<double>& values(std::uint64_t key,
                                      const std::function<std::vector<double>()>& compute);

    /// Keeps what may soon be asked for again.
    void keep(std::uint64_t key);

    /// What each light gives a probe by way of other surfaces, for an exitance of 1 (bounce.h).
    std::vector<double> bounce(const Studio& studio, const Probe& probe);

    /// Key of what light number `light` gives a probe directly.
    std::uint64_t direct_key(std::size_t light, const Probe& probe, int points) const;

private:
    struct Followed {
        Probe probe;
        ProbePaths paths;
    };
    void compare(const Scene& scene);
    void follow_ahead(const Studio& studio);

    ReadingKeys keys_;
    std::mutex asking_; ///< for what changes between two calls of `begin`
    std::unordered_map<std::uint64_t, std::vector<double>> now_, before_;
    std::unordered_map<std::uint64_t, MeshBox> parts_; ///< by key
    ChangedPlaces changed_;                            ///< since the last `begin`
    std::unordered_map<std::uint64_t, Followed> paths_now_, paths_before_;
    /// Of this studio, not asked for yet: what the last one's readings asked for, side by side.
    std::unordered_map<std::uint64_t, Followed> ahead_;
    std::uint64_t subject_key_ = 0;
};

/// Of a receptor's place, direction and kind, and what can shade it.
std::uint64_t probe_key(const Probe& probe);

} // namespace keystead
