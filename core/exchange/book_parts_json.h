#pragma once

#include "core/exchange/book_json.h"

#include <nlohmann/json_fwd.hpp>

// Internal to core/exchange: what a book's JSON says beside lines and reasons. The readers throw Misread
// (json_object.h).
namespace stillroom::exchange {

ScriptedTasting tastingFrom(const nlohmann::json& value);
nlohmann::json tastingJson(const ScriptedTasting& tasted);
std::vector<ScriptedPhoto> photosFrom(const nlohmann::json& list);
nlohmann::json photosJson(const std::vector<ScriptedPhoto>& photos);
std::string specFrom(const nlohmann::json& value); // checked, and canonical
// Of a book with ids.
KeptWith keptFrom(const nlohmann::json& value, base::RevisionId id);
nlohmann::json keptJson(const KeptWith& kept);
std::vector<ScriptedPanel::Said> saidFrom(const nlohmann::json& list);
nlohmann::json saidJson(const std::vector<ScriptedPanel::Said>& said);
std::vector<larder::FactState> statesFrom(const nlohmann::json& list);
quantity::HouseMeasures measuresFrom(const nlohmann::json& value);
std::map<std::string, base::IngredientId> rememberedFrom(const nlohmann::json& value);

ScriptedTry tryFrom(const nlohmann::json& value);
nlohmann::json tryJson(const ScriptedTry& one);
void checkTries(const ScriptedDrink& drink);
void readAfter(const nlohmann::json& value, ScriptedDrink& drink);
nlohmann::json afterJson(const ScriptedDrink& drink); // empty: after nothing
std::vector<std::string> textsFrom(const nlohmann::json& list, const char* what);
tasting::ScaleSet scalesFrom(const nlohmann::json& list);
std::map<std::string, std::string> namesFrom(const nlohmann::json& value);
ScriptedPanel panelFrom(const nlohmann::json& value);
nlohmann::json panelJson(const ScriptedPanel& panel);
ScriptedSearch searchFrom(const nlohmann::json& value);
std::map<std::string, std::string> photoBytesFrom(const nlohmann::json& value);
nlohmann::json photoBytesJson(const std::map<std::string, std::string>& photos);

} // namespace stillroom::exchange
