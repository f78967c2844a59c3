#include "ui/panels/spec_fields.h"

#include "core/exchange/read_text.h"
#include "core/spec/calibration.h"
#include "core/spec/edit.h"
#include "ui/text/amounts.h"
#include "ui/text/border.h"
#include "ui/text/numbers.h"
#include "ui/theme/icons.h"
#include "ui/theme/theme.h"
#include "ui/widgets/prose_edit.h"
#include "ui/widgets/wrap_label.h"

#include <QCoreApplication>
#include <QEvent>
#include <QGridLayout>
#include <QLabel>
#include <QPainter>

#include <algorithm>
#include <functional>

namespace stillroom::ui {

namespace {

QString methodIcon(spec::Technique technique) {
    using T = spec::Technique;
    switch (technique) {
    case T::Shake:
        return QStringLiteral("method-shake");
    case T::Stir:
        return QStringLiteral("method-stir");
    case T::Throw:
        return QStringLiteral("method-throw");
    case T::Blend:
    case T::Whip:
        return QStringLiteral("method-blend");
    case T::Hot:
    case T::WaterBath:
        return QStringLiteral("method-heat");
    case T::Build:
    case T::None:
    case T::Clarify:
    case T::Carbonate:
        break;
    }
    return QStringLiteral("method-build");
}

// "4", "for 4", "makes 4": a whole number above nought, else nothing.
std::optional<int> readServes(const QString& text) {
    QString digits;
    for (const QChar c : text)
        if (c >= QLatin1Char('0') && c <= QLatin1Char('9')) digits += c;
    bool ok = false;
    const int serves = digits.toInt(&ok);
    return ok && serves >= 1 && serves <= 1000 ? std::optional<int>(serves) : std::nullopt;
}

// "90", "90 ml", "3 floz": a volume of liquid before ice, in ml.
std::optional<double> readPartTarget(const QString& text) {
    const auto measured = exchange::readAmount(toCore(text.trimmed()));
    if (!measured || measured->amount.kind != quantity::Amount::Kind::Exact) return std::nullopt;
    const double value = measured->amount.low.toDouble();
    if (!measured->measure) return value > 0 ? std::optional<double>(value) : std::nullopt;
    const auto unit = quantity::HouseMeasures::defaults().ml(*measured->measure);
    return unit && value > 0 ? std::optional<double>(value * *unit) : std::nullopt;
}

} // namespace

QString dilutionInWords(const spec::Spec& spec, const spec::Readings& readings,
                        const std::optional<physics::Calibration>& bench) {
    const auto say = [](const char* text) { return QCoreApplication::translate("Fields", text); };
    const auto& dilution = readings[spec::Stage::Mixed][spec::Quantity::Dilution];
    if (spec.method.text.empty() || dilution.bound == spec::Bound::NotApplicable ||
        dilution.bound == spec::Bound::Unknown)
        return {};
    QString text =
        say("adds water, %1 % of the start.").arg(readingText(dilution, spec::Quantity::Dilution).plain());
    if (!spec.method.dilution && bench)
        text += QLatin1Char(' ') +
                say("Predicted, ×%1 by %2 measured at this bench; nobody has weighed this one yet.")
                    .arg(number(bench->factor, 2), QString::number(bench->measurements));
    else if (!spec.method.dilution)
        text += QLatin1Char(' ') + say("Predicted; nobody has weighed this one yet.");
    else if (spec.method.dilution->origin == spec::DilutionOrigin::Measured)
        text += QLatin1Char(' ') + say("Measured: %1.").arg(fromCore(spec.method.dilution->how));
    else
        text += QLatin1Char(' ') + say("As typed.");
    return text;
}

SpecFields::SpecFields(QWidget* parent)
    : QWidget(parent),
      m_grid(new QGridLayout(this)),
      m_dilution(new WrapLabel(this)) {
    m_method = addField(0, tr("method"), tr("Method"), tr("Shake 12 s with 120 g of wet cubes, strain."));
    m_grid->addWidget(m_dilution, 1, 1);
    m_glass = addField(2, tr("glass"), tr("Glass"), tr("Low tumbler, over one 45 mm cube"));
    m_garnish =
        addField(3, tr("finish"), tr("Garnish and finish"), tr("Lemon peel, expressed and dropped in"));
    m_serves = addField(4, tr("serves"), tr("Serves"), tr("1"));
    m_partTarget = addField(5, tr("one serve"), tr("Size of one serve before ice"), tr("90 ml"));
    m_notes = addField(6, tr("notes"), tr("Notes"), tr("Anything worth keeping"));
    m_notes->setEnterLeaves(false);
    m_grid->setColumnStretch(1, 1);

    connect(m_method, &ProseEdit::edited, this, [this](const QString& text) {
        edit(tr("Method"), [&](spec::Spec& spec) {
            auto method = exchange::readMethod(toCore(text));
            method.text = toCore(text);
            spec.method = spec::reworded(std::move(method), spec.method);
        });
    });
    connect(m_glass, &ProseEdit::edited, this, [this](const QString& text) {
        edit(tr("Glass"), [&](spec::Spec& spec) { spec.glass = toCore(text); });
    });
    connect(m_garnish, &ProseEdit::edited, this, [this](const QString& text) {
        edit(tr("Finish"), [&](spec::Spec& spec) { spec.garnish = toCore(text); });
    });
    connect(m_serves, &ProseEdit::edited, this, &SpecFields::writeServes);
    connect(m_partTarget, &ProseEdit::edited, this, &SpecFields::writePartTarget);
    connect(m_notes, &ProseEdit::edited, this, [this](const QString& text) {
        if (!m_session || m_revision) return;
        DrinkWords words = m_session->now().words;
        words.notes = toCore(text);
        m_session->applyWords(std::move(words), tr("Notes"), m_mergeKey, this);
    });
    ProseEdit* order[] = {m_method, m_glass, m_garnish, m_serves, m_partTarget, m_notes};
    for (std::size_t i = 0; i < std::size(order); ++i) {
        auto* field = order[i];
        auto* next = order[(i + 1) % std::size(order)];
        connect(field, &ProseEdit::entered, this, [this] {
            if (m_session) m_mergeKey = m_session->newMergeKey();
        });
        connect(field, &ProseEdit::finished, next,
                [this, next] { (next->isHidden() ? m_notes : next)->setFocus(Qt::TabFocusReason); });
    }
    dress();
}

ProseEdit* SpecFields::addField(int row, const QString& caption, const QString& name, const QString& invite) {
    auto* label = new QLabel(caption, this);
    auto* field = new ProseEdit(Type::Body, ProseEdit::Undo::Drafts, this);
    field->setAccessibleName(name);
    field->setPlaceholderText(invite);
    label->setBuddy(field);
    m_captions.push_back(label);
    m_grid->addWidget(label, row, 0, Qt::AlignTop);
    m_grid->addWidget(field, row, 1);
    return field;
}

void SpecFields::dress() {
    const auto& theme = Theme::current();
    m_grid->setContentsMargins(theme.pxInt(16), theme.pxInt(10), theme.pxInt(16), theme.pxInt(2));
    m_grid->setVerticalSpacing(theme.pxInt(4));
    m_grid->setHorizontalSpacing(theme.pxInt(34));
    m_grid->setColumnMinimumWidth(0, theme.pxInt(46));
    QPalette quiet = palette();
    quiet.setColor(QPalette::WindowText, theme.color(Token::Ink3));
    for (auto* label : m_captions) {
        label->setFont(theme.font(Type::Control));
        label->setPalette(quiet);
        label->setContentsMargins(0, theme.pxInt(5), 0, 0);
    }
    m_dilution->setFont(theme.font(Type::Unit));
    m_dilution->setPalette(quiet);
    m_dilution->setContentsMargins(theme.pxInt(2), 0, 0, theme.pxInt(4));
}

void SpecFields::setSession(DraftSession* session) {
    if (m_session) m_session->disconnect(this);
    m_session = session;
    m_revision.reset();
    if (m_session) connect(m_session, &DraftSession::changed, this, &SpecFields::refresh);
    refresh();
}

void SpecFields::showRevision(const history::Revision* revision) {
    m_revision = revision ? std::optional<history::Revision>(*revision) : std::nullopt;
    refresh();
}

void SpecFields::refresh() {
    if (!m_session) return;
    const auto& spec = m_revision ? m_revision->spec : m_session->spec();
    const auto& readings = m_revision ? m_revision->readings : m_session->now().readings;
    const bool fixed = m_revision || m_session->book().book().isReadOnly();
    for (auto* field : {m_method, m_glass, m_garnish, m_serves, m_partTarget, m_notes})
        field->setReadOnly(fixed);
    m_method->show(fromCore(spec.method.text));
    m_glass->show(fromCore(spec.glass));
    m_garnish->show(fromCore(spec.garnish));
    m_notes->show(fromCore(m_session->now().words.notes));
    if (readServes(m_serves->toPlainText()) != spec.serves) m_serves->show(QString::number(spec.serves));
    const bool parts = std::any_of(spec.lines.begin(), spec.lines.end(), [](const spec::Line& line) {
        return line.poured.measure == quantity::Measure::Part;
    });
    m_partTarget->setVisible(parts);
    m_captions[4]->setVisible(parts);
    if (readPartTarget(m_partTarget->toPlainText()) != spec.partTargetMl)
        m_partTarget->show(spec.partTargetMl ? trimmedNumber(*spec.partTargetMl, 2) + QStringLiteral(" ml")
                                             : QString());
    // Nothing is served of a preparation by itself: no glass, no finish.
    const bool prepares = m_session->drink().form == history::DrinkForm::Preparation;
    const auto showRow = [&](ProseEdit* field, std::size_t caption, bool shown) {
        field->setVisible(shown);
        m_captions[caption]->setVisible(shown);
    };
    showRow(m_glass, 1, !prepares || !spec.glass.empty());
    showRow(m_garnish, 2, !prepares || !spec.garnish.empty());
    showRow(m_serves, 3, !prepares || spec.serves != 1);
    // A revision stays as it was kept; what moved it then is not said of it now.
    const auto bench =
        m_revision ? std::nullopt : spec::dilutionSource(spec, m_session->bindings()).calibration;
    const QString water = prepares ? QString() : dilutionInWords(spec, readings, bench);
    if (m_dilution->text() != water) m_dilution->setText(water);
    m_dilution->setVisible(!water.isEmpty());
    update();
}

void SpecFields::edit(const QString& label, const std::function<void(spec::Spec&)>& change) {
    if (!m_session || m_revision) return;
    spec::Spec next = m_session->spec();
    change(next);
    m_session->apply(std::move(next), label, m_mergeKey, this);
}

void SpecFields::writeServes(const QString& text) {
    const auto serves = readServes(text);
    if (!serves || !m_session || m_revision || *serves == m_session->spec().serves) return;
    m_session->apply(spec::scaledToServes(m_session->spec(), *serves), tr("Scale to %1").arg(*serves),
                     m_mergeKey, this);
}

void SpecFields::writePartTarget(const QString& text) {
    const auto target = readPartTarget(text);
    if (!target && !text.trimmed().isEmpty()) return;
    edit(tr("Size of one serve"), [&](spec::Spec& spec) { spec.partTargetMl = target; });
}

void SpecFields::paintEvent(QPaintEvent*) {
    if (!m_session) return;
    QPainter painter(this);
    const Look& look = Theme::current().look();
    const double size = look.px(18);
    const auto draw = [&](const QWidget* field, const QString& name) {
        if (name.isEmpty()) return;
        const QRectF box(field->x() - size - look.px(8), field->y() + look.px(3), size, size);
        paintIcon(painter, box, name, look.color(Token::Ink2));
    };
    const auto& spec = m_revision ? m_revision->spec : m_session->spec();
    if (!spec.method.text.empty()) draw(m_method, methodIcon(spec.method.technique));
    if (!spec.glass.empty()) draw(m_glass, QStringLiteral("role-topped"));
    if (!spec.garnish.empty()) draw(m_garnish, QStringLiteral("role-garnish"));
}

void SpecFields::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::StyleChange) dress();
}

} // namespace stillroom::ui
