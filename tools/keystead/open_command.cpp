#include "engine/ui/window.h"
#include "tools/keystead/commands.h"
#include "tools/keystead/common.h"
#include "tools/keystead/exit_codes.h"

namespace keystead {

int open_command(const OpenArguments& arguments) {
    const Result<PixelSize> size = parse_size(arguments.size);
    if (!size) {
        complain(size.problem().message());
        return exit_code::input;
    }
    // A set that cannot be read ends here with its one line, before a window opens.
    if (!arguments.set.empty() && !load_or_complain(arguments.set)) return exit_code::input;
    WindowOptions options;
    options.set_file = arguments.set;
    options.theme = arguments.theme;
    options.scale = arguments.scale;
    options.screenshot = arguments.screenshot;
    options.frame_log = arguments.frame_log;
    options.learn = arguments.learn;
    if (options.learn) options.settle_s *= 4.0; // a chart takes longer than a picture
    options.view = arguments.view;
    options.select = arguments.select;
    options.filler = filler_kind(arguments.filler).value_or(FillerKind::automatic);
    options.width_px = size.value().width;
    options.height_px = size.value().height;
    return run_window(options);
}

} // namespace keystead
