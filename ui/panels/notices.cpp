#include "ui/panels/notices.h"

#include "ui/text/border.h"
#include "ui/text/us_allergens.h"
#include "ui/text/words.h"
#include "ui/theme/theme.h"
#include "ui/widgets/wrap_label.h"

#include <QCoreApplication>
#include <QEvent>
#include <QLabel>
#include <QVBoxLayout>

#include <algorithm>
#include <set>

namespace stillroom::ui {

namespace {

using Code = spec::GapCode;

QString say(const char* text) {
    return QCoreApplication::translate("Notices", text);
}

// Prices, things left out on purpose and the glass do not change what is in the drink.
bool isQuiet(Code code) {
    return code == Code::PriceUnknown || code == Code::PriceCurrency || code == Code::PriceUnit ||
           code == Code::PriceYield || code == Code::PriceNegative || code == Code::PriceWrong ||
           code == Code::OptionalLeftOut || code == Code::ToTasteLeftOut || code == Code::GlassUnknown ||
           code == Code::DensityUnknown;
}

NoticeAct actOf(Code code) {
    switch (code) {
    case Code::StrengthUnknown:
    case Code::SugarUnknown:
    case Code::AcidUnknown:
    case Code::DensityUnknown:
    case Code::PriceUnknown:
    case Code::PriceCurrency:
    case Code::FactsContradict:
    case Code::PriceUnit:
    case Code::PriceYield:
    case Code::PriceNegative:
    case Code::PriceWrong:
        return NoticeAct::EnterFacts;
    case Code::IngredientUnknown:
        return NoticeAct::ChooseIngredient;
    case Code::MeasureHasNoSize:
        return NoticeAct::HouseMeasures;
    case Code::AmountNotStated:
    case Code::RinseByTheHouse:
        return NoticeAct::Amount;
    case Code::DilutionUnknown:
        return NoticeAct::Method;
    case Code::GlassUnknown:
        return NoticeAct::Glass;
    case Code::PartTargetMissing:
        return NoticeAct::PartTarget;
    case Code::OptionalLeftOut:
    case Code::ToTasteLeftOut:
    case Code::SolidShareUnknown:
        break;
    }
    return NoticeAct::None;
}

struct Group {
    Code code;
    QStringList names;
    int firstLine = -1;
};

std::vector<Group> grouped(const std::vector<spec::Gap>& gaps, bool quiet) {
    // An ingredient nobody knows lacks every fact; saying so once is enough.
    std::set<int> strangers;
    for (const auto& gap : gaps)
        if (gap.code == Code::IngredientUnknown) strangers.insert(gap.line);
    std::vector<Group> groups;
    for (const auto& gap : gaps) {
        if (isQuiet(gap.code) != quiet) continue;
        if (gap.code != Code::IngredientUnknown && actOf(gap.code) == NoticeAct::EnterFacts &&
            strangers.contains(gap.line))
            continue;
        auto at = std::find_if(groups.begin(), groups.end(),
                               [&](const Group& group) { return group.code == gap.code; });
        if (at == groups.end()) {
            groups.push_back({gap.code, {}, gap.line});
            at = groups.end() - 1;
        }
        QString name = fromCore(gap.ingredient);
        // What it lacks a price for, where that is another thing: a part of what is made here.
        if (gap.code == Code::PriceUnknown && !gap.detail.empty())
            name = say("%1 (in %2)").arg(fromCore(gap.detail), name);
        if (gap.code == Code::FactsContradict)
            name +=
                QStringLiteral(" (%1)").arg(contradictionInWords(gap.densityOffKgPerM3, gap.asSugarGPerL));
        if (!name.isEmpty() && !at->names.contains(name)) at->names << name;
    }
    return groups;
}

QString paragraph(const QStringList& sentences) {
    return sentences.join(QLatin1Char(' '));
}

void showOrHide(QLabel* label, const QString& text) {
    if (label->text() != text) label->setText(text);
    label->setVisible(!text.isEmpty());
}

} // namespace

std::vector<Notice> noticesOf(const DraftReading& now) {
    std::vector<Notice> notices;
    for (const auto& caution : now.cautions) {
        if (caution.standing || caution.severity == spec::Severity::Allergen ||
            caution.severity == spec::Severity::Info)
            continue;
        Notice notice;
        notice.kind = caution.severity == spec::Severity::Danger ? BannerKind::Error : BannerKind::Caution;
        QString text = fromCore(caution.text);
        const auto stop = text.indexOf(QStringLiteral(". "));
        notice.text.fact = stop < 0 ? text : text.left(stop + 1);
        if (stop >= 0) notice.text.consequence = text.mid(stop + 2);
        if (!caution.lines.empty()) notice.line = caution.lines.front();
        notice.source = fromCore(caution.source);
        notices.push_back(std::move(notice));
    }
    for (const auto& group : grouped(now.gaps, false)) {
        const auto sentence = gapSentence(group.code, group.names);
        notices.push_back({BannerKind::Gap,
                           {sentence.fact, sentence.consequence, sentence.act},
                           actOf(group.code),
                           group.firstLine,
                           {}});
    }
    return notices;
}

QString quietGaps(const DraftReading& now) {
    QStringList sentences;
    for (const auto& group : grouped(now.gaps, true)) {
        const auto sentence = gapSentence(group.code, group.names);
        sentences << sentence.fact + QLatin1Char(' ') + sentence.consequence;
    }
    for (const auto& caution : now.cautions)
        if (!caution.standing && caution.severity == spec::Severity::Info)
            sentences << fromCore(caution.text);
    return paragraph(sentences);
}

QString allergensInWords(const DraftReading& now) {
    QStringList contains;
    for (const auto& id : now.allergens.contains)
        contains << allergenName(fromCore(id));
    QStringList unknown;
    for (const int line : now.allergens.unknownLines) {
        if (line < 0 || static_cast<std::size_t>(line) >= now.spec.lines.size()) continue;
        const QString name = fromCore(now.spec.lines[static_cast<std::size_t>(line)].name);
        if (!unknown.contains(name)) unknown << name;
    }
    if (now.allergens.garnishNotStated) unknown << say("the garnish");
    if (now.spec.lines.empty()) return {};
    QString text = contains.isEmpty() ? say("Allergens: none on record.")
                                      : say("Allergens: %1.").arg(contains.join(QStringLiteral(", ")));
    if (!unknown.isEmpty())
        text += QLatin1Char(' ') + say("Not stated for %1.").arg(unknown.join(QStringLiteral(", ")));
    if (const QString us = usAllergens(now.allergens.contains); !us.isEmpty()) text += QLatin1Char(' ') + us;
    QStringList said;
    for (const auto& caution : now.cautions)
        if (caution.severity == spec::Severity::Allergen && !caution.standing) said << fromCore(caution.text);
    return paragraph(QStringList{text} + said);
}

QString sourcesOf(const DraftReading& now, spec::Severity severity) {
    QStringList sources;
    for (const auto& caution : now.cautions)
        if (!caution.standing && caution.severity == severity && !caution.source.empty())
            sources << say("%1 Source: %2.").arg(fromCore(caution.text), fromCore(caution.source));
    return sources.join(QLatin1Char('\n'));
}

QString standingCautions(const DraftReading& now) {
    if (now.spec.lines.empty()) return {};
    QStringList sentences;
    for (const auto& caution : now.cautions)
        if (caution.standing) sentences << fromCore(caution.text);
    sentences << fromCore(spec::deferenceText());
    return paragraph(sentences);
}

Notices::Notices(QWidget* parent)
    : QWidget(parent),
      m_banners(new QVBoxLayout),
      m_quiet(new WrapLabel(this)),
      m_allergens(new WrapLabel(this)),
      m_standing(new WrapLabel(this)) {
    auto* layout = new QVBoxLayout(this);
    layout->addLayout(m_banners);
    for (auto* label : {m_quiet, m_allergens, m_standing}) {
        label->setTextInteractionFlags(Qt::TextSelectableByMouse);
        layout->addWidget(label);
    }
    m_standing->setAccessibleName(tr("Standing notes"));
    dress();
}

void Notices::dress() {
    const auto& theme = Theme::current();
    layout()->setContentsMargins(theme.pxInt(16), theme.pxInt(8), theme.pxInt(16), theme.pxInt(12));
    layout()->setSpacing(theme.pxInt(8));
    m_banners->setSpacing(theme.pxInt(6));
    const auto wear = [&](QLabel* label, Type type, Token ink) {
        label->setFont(theme.font(type));
        QPalette colors = palette();
        colors.setColor(QPalette::WindowText, theme.color(ink));
        label->setPalette(colors);
    };
    wear(m_quiet, Type::Control, Token::Ink2);
    wear(m_allergens, Type::Control, Token::Ink2);
    wear(m_standing, Type::Caption, Token::Ink3);
}

void Notices::show(const DraftReading& now) {
    m_shown = noticesOf(now);
    while (m_pool.size() < m_shown.size()) {
        auto* banner = new Banner(this);
        const auto index = m_pool.size();
        connect(banner, &Banner::actTriggered, this, [this, index] {
            if (index < m_shown.size()) Q_EMIT actTriggered(m_shown[index].act, m_shown[index].line);
        });
        m_banners->addWidget(banner);
        m_pool.push_back(banner);
    }
    for (std::size_t i = 0; i < m_pool.size(); ++i) {
        const Notice wanted = i < m_shown.size() ? m_shown[i] : Notice{};
        const QString source = wanted.source.isEmpty() ? QString() : tr("Source: %1").arg(wanted.source);
        m_pool[i]->setToolTip(source);
        m_pool[i]->setAccessibleDescription(source);
        const auto& said = m_pool[i]->text();
        if (m_pool[i]->kind() == wanted.kind && said.fact == wanted.text.fact &&
            said.consequence == wanted.text.consequence && said.act == wanted.text.act &&
            m_pool[i]->isHidden() == wanted.text.fact.isEmpty())
            continue;
        m_pool[i]->show(wanted.kind, wanted.text);
    }
    showOrHide(m_quiet, quietGaps(now));
    showOrHide(m_allergens, allergensInWords(now));
    showOrHide(m_standing, standingCautions(now));
    m_quiet->setToolTip(sourcesOf(now, spec::Severity::Info));
    m_allergens->setToolTip(sourcesOf(now, spec::Severity::Allergen));
}

void Notices::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

} // namespace stillroom::ui
