// A mesh file read beside the window: first the file, then, for a unit and an up axis, the mesh as
// the set will use it, with its face looked for. One thread, one job at a time; asking again or
// stopping gives up what is under way.
#pragma once

#include "sim/import/units.h"
#include "sim/studio/stored_mesh.h"

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>

namespace keystead::ui {

struct ReadMesh {
    std::filesystem::path file;
    ImportedMesh imported; ///< file units
    UnitGuess guess;
};

/// The mesh made for a request, and where its lowest point is.
struct FittedMesh {
    MeshRequest request;
    std::shared_ptr<const StoredMesh> stored;
};

struct MeshReading {
    bool busy = false;
    double share = 0.0; ///< of the file, 0..1
    std::string doing;
    std::optional<Problem> problem; ///< the file cannot be used: one line
    std::shared_ptr<const ReadMesh> read;
    std::optional<FittedMesh> fitted; ///< the last one asked for, once it is made
};

class MeshReader {
public:
    /// `wake` is called from the worker when there is something new to show.
    explicit MeshReader(std::function<void()> wake);
    ~MeshReader();
    MeshReader(const MeshReader&) = delete;
    MeshReader& operator=(const MeshReader&) = delete;

    void read(const std::filesystem::path& file);
    /// Of the file read last; `request` says how the set will name it.
    void fit(const MeshRequest& request);
    /// Forgets everything at once; the worker follows within a step of its work.
    void stop();

    MeshReading state() const;

private:
    struct Data;
    std::unique_ptr<Data> data_;
};

} // namespace keystead::ui
