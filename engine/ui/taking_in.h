// Taking a mesh file into the set: what is being read, what the user has chosen of the offers, and
// the command it ends in.
#pragma once

#include "engine/edit/command.h"
#include "engine/ui/mesh_reader.h"
#include "sim/set/set.h"

namespace keystead::ui {

enum class TakenAs { subject, prop };

/// Open while a file waits to become part of the set. Plain values but for the reader.
struct TakingIn {
    std::unique_ptr<MeshReader> reader; ///< made when first needed
    bool open = false;
    std::filesystem::path file;
    std::filesystem::path folder; ///< the set's, empty while it has none
    MeshReading now;              ///< as of the last look at the reader
    bool chosen = false;          ///< unit and axis are set: from the best offer at first
    LengthUnit unit = LengthUnit::metre;
    UpAxis up = UpAxis::y;
    std::optional<TakenAs> take_when_ready; ///< asked for; the mesh is being made
    StoredMeshes at_hand;                   ///< made here, so that the studio need not read again
};

/// Reads a file; what was open before is given up.
void begin_taking(TakingIn& taking, const std::filesystem::path& file,
                  const std::filesystem::path& set_folder, const std::function<void()>& wake);
void leave(TakingIn& taking);
/// Another unit or axis: the face is looked for again.
void choose(TakingIn& taking, LengthUnit unit, UpAxis up);
/// The set was saved elsewhere meanwhile: it will name the file otherwise.
void set_moved(TakingIn& taking, const std::filesystem::path& set_folder);
/// As soon as the mesh is made for it.
void take(TakingIn& taking, TakenAs as);

/// Looks at the reader. Gives the command once what was asked for is ready; the card then closes.
std::optional<Command> look(TakingIn& taking, const Set& set);

/// Height of the mesh so read.
double height_m(const ReadMesh& read, LengthUnit unit, UpAxis up);

} // namespace keystead::ui
