// A linked shader program with its uniforms by name.
#pragma once

#include "engine/gl/objects.h"
#include "sim/base/result.h"

#include <glm/glm.hpp>
#include <span>
#include <string>
#include <unordered_map>

namespace keystead {

struct ProgramKind {
    static unsigned make();
    static void destroy(unsigned id);
};

/// Setting a uniform that the program does not use is allowed and does nothing.
class Program {
public:
    Program() = default;
    /// Two file names below the shaders folder; `defines` are lines put after #version.
    static Result<Program> load(const std::string& vertex, const std::string& fragment,
                                const std::string& defines = "");

    void use() const;
    void set(const char* name, int value);
    void set(const char* name, float value);
    void set(const char* name, const glm::vec2& value);
    void set(const char* name, const glm::vec3& value);
    void set(const char* name, const glm::vec4& value);
    void set(const char* name, const glm::mat3& value);
    void set(const char* name, const glm::mat4& value);
    void set(const char* name, std::span<const glm::vec4> values);
    void set(const char* name, std::span<const glm::mat4> values);

private:
    int location(const char* name);
    GlObject<ProgramKind> program_;
    std::unordered_map<std::string, int> locations_;
};

} // namespace keystead
