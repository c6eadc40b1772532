#include "app/field.h"

#include "text/shaper.h"

#include <SDL.h>
#include <backends/imgui_impl_opengl3.h>
#include <backends/imgui_impl_sdl.h>
#include <epoxy/gl.h>
#include <imgui.h>
#include <imgui_freetype.h>
#include <imgui_internal.h>
#include <imgui_stdlib.h>

#include <cmath>

namespace mw::app {
namespace {

// One window, one field: the state lives with Dear ImGui's own context.
double asked_size = 0, built_size = 0;
std::string font_file;
bool was_active = false;

constexpr double line_height = 1.63; // Andika's own, em; Dear ImGui counts a font's size by it

// Latin, IPA, tone letters, marks, Greek letters of the IPA, arrows, quotes.
constexpr ImWchar letters[]{0x20, 0x24F, 0x250, 0x2FF, 0x300, 0x36F, 0x370, 0x3FF, 0x1D00, 0x1DBF, 0x2010, 0x205F, 0x2190, 0x21FF, 0xA700, 0xA71F, 0};

void build_font() {
  if (asked_size == built_size) return;
  ImGuiIO& io = ImGui::GetIO();
  io.Fonts->Clear();
  ImFontConfig config;
  config.OversampleH = 2;
  io.Fonts->AddFontFromFileTTF(font_file.c_str(), static_cast<float>(asked_size * line_height), &config, letters);
  io.Fonts->FontBuilderIO = ImGuiFreeType::GetBuilderForFreeType();
  io.Fonts->FontBuilderFlags = ImGuiFreeTypeBuilderFlags_NoHinting;
  io.Fonts->Build();
  ImGui_ImplOpenGL3_DestroyFontsTexture();
  ImGui_ImplOpenGL3_CreateFontsTexture();
  built_size = asked_size;
}

ImVec4 to_imgui(Colour c) { return {c.r, c.g, c.b, c.a}; }

void set_style(const Theme& theme, bool visible) {
  ImGuiStyle& style = ImGui::GetStyle();
  style.WindowPadding = style.FramePadding = {0, 0};
  style.WindowBorderSize = style.FrameBorderSize = 0;
  const ImVec4 nothing{0, 0, 0, 0};
  for (const int slot : {ImGuiCol_WindowBg, ImGuiCol_FrameBg, ImGuiCol_FrameBgHovered, ImGuiCol_FrameBgActive, ImGuiCol_NavHighlight, ImGuiCol_Border})
    style.Colors[slot] = nothing;
  style.Colors[ImGuiCol_Text] = visible ? to_imgui(theme.ink) : nothing;
  style.Colors[ImGuiCol_TextSelectedBg] = to_imgui(theme.select);
}

} // namespace

Result<Done> Field::start(SDL_Window* window, void* gl_context) {
  auto file = find_font_file("Andika", false);
  if (!file) return file.error();
  font_file = *file;
  ImGui::CreateContext();
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.ConfigInputTextCursorBlink = false; // nothing here blinks
  ImGui_ImplSDL2_InitForOpenGL(window, gl_context);
  ImGui_ImplOpenGL3_Init("#version 330 core");
  built_size = 0;
  was_active = false;
  return Done{};
}

void Field::stop() {
  ImGui_ImplOpenGL3_Shutdown();
  ImGui_ImplSDL2_Shutdown();
  ImGui::DestroyContext();
}

void Field::handle(const SDL_Event& event) {
  // Esc, Tab and F1 are the window's: Dear ImGui would undo or swallow
  if (event.type == SDL_KEYDOWN || event.type == SDL_KEYUP) {
    const auto code = event.key.keysym.sym;
    if (code == SDLK_ESCAPE || code == SDLK_TAB || code == SDLK_F1) return;
  }
  ImGui_ImplSDL2_ProcessEvent(&event);
}

void Field::set_size(double text_size) { asked_size = text_size; }

Field::Shown Field::show(Rect rect, std::string& text, const Theme& theme, const Input& input, bool take_focus, bool leave, double wall_s, int width, int height) {
  build_font();
  ImGui_ImplOpenGL3_NewFrame();
  ImGui_ImplSDL2_NewFrame();
  // the window keeps the mouse itself, so that real and sent events are the same
  ImGuiIO& io = ImGui::GetIO();
  io.DisplaySize = {static_cast<float>(width), static_cast<float>(height)};
  io.DisplayFramebufferScale = {1, 1};
  io.DeltaTime = static_cast<float>(std::max(wall_s, 1e-3));
  io.MousePos = {static_cast<float>(input.mouse.x), static_cast<float>(input.mouse.y)};
  io.MouseDown[0] = input.down || input.pressed;
  ImGui::NewFrame();
  if (leave) ImGui::ClearActiveID();
  set_style(theme, was_active || take_focus);
  ImGui::SetNextWindowPos({static_cast<float>(rect.x), static_cast<float>(rect.y)});
  ImGui::SetNextWindowSize({static_cast<float>(rect.width), static_cast<float>(rect.height)});
  ImGui::Begin("phrase", nullptr, ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoNav | ImGuiWindowFlags_NoBackground);
  ImGui::SetCursorPosY((static_cast<float>(rect.height) - ImGui::GetFontSize()) / 2);
  ImGui::SetNextItemWidth(static_cast<float>(rect.width));
  if (take_focus) ImGui::SetKeyboardFocusHere();
  Shown out;
  out.entered = ImGui::InputText("##phrase", &text, ImGuiInputTextFlags_EnterReturnsTrue);
  out.changed = ImGui::IsItemEdited();
  was_active = out.active = ImGui::IsItemActive();
  ImGui::End();
  ImGui::Render();
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
  return out;
}

} // namespace mw::app
