// Our own list of files for opening and saving: folders, sets or meshes, a name to type.
#pragma once

#include "engine/ui/outbox.h"
#include "engine/ui/type.h"

#include <filesystem>
#include <string>
#include <vector>

namespace keystead::ui {

struct FileList {
    bool open = false, saving = false;
    bool meshes = false;   ///< glTF and OBJ instead of sets
    bool pictures = false; ///< PNG instead of sets
    bool measured = false; ///< light distributions instead of sets
    std::filesystem::path folder;
    std::vector<std::filesystem::path> folders, files;
    char name[256] = {};
    std::string trouble;
    bool replace_asked = false; ///< saving over a file that is there: said once before it is done
    int age = 0;
};

void open_file_list(FileList& list, const std::filesystem::path& folder, bool saving,
                    const std::string& name);

/// For a head, a figure or a prop.
void open_mesh_list(FileList& list, const std::filesystem::path& folder);

/// For a measured light distribution.
void open_measured_list(FileList& list, const std::filesystem::path& folder);

/// Whether a file's name ends with one of those, in capitals or not.
bool ends_like(const std::filesystem::path& file, std::initializer_list<std::string_view> endings);

/// For a picture to be written.
void open_picture_list(FileList& list, const std::filesystem::path& folder,
                       const std::string& name);

/// Draws it over the middle of `area`. Returns the file that was chosen; the list is then closed.
std::optional<std::filesystem::path> file_list(Pen pen, const Rect& area, FileList& list);

/// Folders there and the files it is open for, by name; hidden ones left out.
void read_folder(FileList& list);

} // namespace keystead::ui
