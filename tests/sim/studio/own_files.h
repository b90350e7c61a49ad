// Files of the kind users bring, written from the project's own generated head.
#pragma once

#include "sim/base/mesh.h"

#include <filesystem>

namespace own_files {

/// A folder of its own, removed with everything in it.
class Folder {
public:
    Folder();
    ~Folder();
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    const std::filesystem::path& path() const { return path_; }

private:
    std::filesystem::path path_;
};

/// Wavefront OBJ in millimetres with Z up (a face along +Z of the mesh looks along -Y of the file).
void write_obj_mm_z_up(const keystead::Mesh& mesh, const std::filesystem::path& file);
/// Binary glTF 2.0: metres, Y up.
void write_glb(const keystead::Mesh& mesh, const std::filesystem::path& file);

} // namespace own_files
