// Our own list of files for opening and saving: folders and sets, a name to type, nothing else.
#pragma once

#include "engine/ui/outbox.h"
#include "engine/ui/type.h"

#include <filesystem>
#include <string>
#include <vector>

namespace keystead::ui {

struct FileList {
    bool open = false, saving = false;
    std::filesystem::path folder;
    std::vector<std::filesystem::path> folders, sets;
    char name[256] = {};
    std::string trouble;
    bool replace_asked = false; ///< saving over a file that is there: said once before it is done
    int age = 0;
};

void open_file_list(FileList& list, const std::filesystem::path& folder, bool saving,
                    const std::string& name);

/// Draws it over the middle of `area`. Returns the file that was chosen; the list is then closed.
std::optional<std::filesystem::path> file_list(Pen pen, const Rect& area, FileList& list);

/// Folders and .json files there, by name; hidden ones left out.
void read_folder(FileList& list);

} // namespace keystead::ui
