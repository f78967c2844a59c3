#include "ui/dialogs/about_dialogs.h"

#include "core/spec/caution.h"
#include "ui/text/border.h"
#include "ui/theme/theme.h"

#include <QDialogButtonBox>
#include <QTextBrowser>
#include <QVBoxLayout>

namespace stillroom::ui {

namespace {

void fill(QDialog& dialog, const QString& title, const QString& html) {
    const auto& theme = Theme::current();
    dialog.setWindowTitle(title);
    auto* page = new QTextBrowser(&dialog);
    page->setAccessibleName(title);
    page->setFrameShape(QFrame::NoFrame);
    page->setFont(theme.font(Type::Body));
    page->setHtml(html);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close, &dialog);
    QObject::connect(buttons, &QDialogButtonBox::rejected, &dialog, &QDialog::reject);
    auto* layout = new QVBoxLayout(&dialog);
    layout->addWidget(page);
    layout->addWidget(buttons);
    dialog.resize(theme.pxInt(560), theme.pxInt(460));
}

QString paragraph(const QString& text) {
    return QStringLiteral("<p>") + text.toHtmlEscaped() + QStringLiteral("</p>");
}

// The standing notes are those of a drink with nothing special in it but alcohol.
QString standingNotes() {
    const larder::Larder larder;
    spec::Line spirit;
    spirit.name = "London dry gin";
    spirit.ingredient = larder.match(spirit.name).ingredient;
    spirit.poured.measure = quantity::Measure::Ml;
    spirit.poured.amount = quantity::Amount::exact(quantity::Rational(45));
    spec::Spec plain;
    plain.lines = {spirit};
    const spec::Bindings bindings(plain, larder, spec::HouseRules{});
    QString html;
    for (const auto& caution : spec::cautions(plain, bindings, spec::evaluate(plain, bindings)))
        if (caution.standing)
            html +=
                QStringLiteral("<p>%1<br><small>%2</small></p>")
                    .arg(fromCore(caution.text).toHtmlEscaped(), fromCore(caution.source).toHtmlEscaped());
    return html;
}

} // namespace

AboutDialog::AboutDialog(QWidget* parent) : QDialog(parent) {
    fill(
        *this, tr("About Stillroom"),
        QStringLiteral("<h2>Stillroom</h2>") +
            paragraph(tr(
                "A workbench for developing mixed drinks: write a spec, see what it is while you type, keep "
                "what you tried and why.")) +
            paragraph(tr(
                "Strength is % vol at 20 °C by the international alcoholometric formula (OIML R 22). Mixing "
                "conserves mass, not volume. Sugar is g/100 ml; acid is g/100 ml as citric. Water added by "
                "ice is predicted from published curves until you measure it, and a measured value wins.")) +
            paragraph(tr(
                "The handbook's facts carry their source. A fact that is missing makes a reading a bound: at "
                "least, at most, between, or unknown. It is never counted as zero.")) +
            paragraph(tr(
                "Predictions are not measurements. Labels, local rules and a person who has tasted the drink "
                "come first.")));
}

CautionsDialog::CautionsDialog(QWidget* parent) : QDialog(parent) {
    fill(*this, tr("Cautions"), paragraph(fromCore(spec::deferenceText())) + standingNotes());
}

} // namespace stillroom::ui
